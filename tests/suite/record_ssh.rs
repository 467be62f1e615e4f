//! Keys and signatures, both ways between Hames and the stock `ssh-keygen`.

use crate::stock::{Bench, ssh_keygen};
use hames::record::{
    Crew, Deed, DeviceKey, Dice, Id, LockedKey, Mode, Namespace, Passphrase, PrintedName,
    PublicKey, Refused, Role, SignatureFault, Signer,
};
use std::ffi::OsStr;

const SEAL: &[u8] = b"{\"v\":1,\"trip\":\"d-1\"}\n";
const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);
const SEEN: Namespace = Namespace::new(Deed::Witnessed, Mode::Real);
const PHRASE: &str = "hay, oats & häcksel";

pub(crate) fn id(text: &str) -> Id {
    Id::read(text).unwrap()
}

fn phrase(typed: &str) -> Passphrase {
    Passphrase::new(typed.to_owned().into()).unwrap()
}

fn wren() -> LockedKey {
    LockedKey::make(&Dice::new([1; 52]), &phrase(PHRASE), &id("wren.ashdown")).unwrap()
}

fn laptop() -> DeviceKey {
    DeviceKey::make(&Dice::new([2; 52]), &id("laptop-7f3a")).unwrap()
}

fn signer(who: &str, roles: &[Role], key: &PublicKey, name: &str) -> Signer {
    let deed = roles[0].deed();
    Signer {
        id: id(who),
        roles: roles.to_vec(),
        namespaces: Mode::ALL.map(|mode| Namespace::new(deed, mode)).to_vec(),
        key: key.clone(),
        name: PrintedName::read(name).unwrap(),
    }
}

fn crew() -> Crew {
    let people = [Role::Driver, Role::Examiner];
    Crew::read(b"# Quillwater Stables\n")
        .unwrap()
        .add(&signer(
            "wren.ashdown",
            &people,
            wren().public(),
            "Wren Ashdown",
        ))
        .unwrap()
        .add(&signer(
            "laptop-7f3a",
            &[Role::Device],
            laptop().public(),
            "Laptop in the tack room",
        ))
        .unwrap()
}

#[test]
fn the_stock_tool_accepts_our_signatures_with_our_crew_file_by_person_and_by_role() {
    let bench = Bench::new();
    let wrens = wren().sign(&phrase(PHRASE), DONE, SEAL).unwrap();
    let laptops = laptop().sign(SEEN, SEAL).unwrap();
    for (who, namespace, armor, good) in [
        ("wren.ashdown", DONE, &wrens, true),
        ("role:driver", DONE, &wrens, true),
        ("role:examiner", DONE, &wrens, true),
        ("laptop-7f3a", SEEN, &laptops, true),
        ("role:device", SEEN, &laptops, true),
        ("role:manager", DONE, &wrens, false),
        ("role:device", SEEN, &wrens, false),
        ("wren.ashdown", SEEN, &wrens, false),
        ("laptop-7f3a", DONE, &wrens, false),
        ("tobias.fenn", DONE, &wrens, false),
    ] {
        let answer = bench.verify(crew().text(), who, namespace.name(), SEAL, armor);
        assert_eq!(answer.good, good, "{who} {namespace}: {}", answer.said);
    }
}

#[test]
fn the_crew_refuses_what_the_stock_tool_refuses_and_names_the_reason() {
    let wrens = wren().sign(&phrase(PHRASE), DONE, SEAL).unwrap();
    let judged = |who: &str, role, namespace, bytes: &[u8]| {
        let crew = crew();
        crew.verify((&id(who), role), namespace, bytes, &wrens)
            .map(|signer| signer.name.to_string())
    };
    assert_eq!(
        judged("wren.ashdown", Role::Driver, DONE, SEAL),
        Ok("Wren Ashdown".to_owned())
    );
    assert_eq!(
        judged("tobias.fenn", Role::Driver, DONE, SEAL),
        Err(Refused::Unknown(id("tobias.fenn")))
    );
    assert_eq!(
        judged("wren.ashdown", Role::Manager, DONE, SEAL),
        Err(Refused::Role(id("wren.ashdown"), Role::Manager))
    );
    assert_eq!(
        judged("wren.ashdown", Role::Driver, SEEN, SEAL),
        Err(Refused::Namespace(id("wren.ashdown"), SEEN))
    );
    let drill = Namespace::new(Deed::Performed, Mode::Drill);
    assert_eq!(
        judged("wren.ashdown", Role::Driver, drill, SEAL),
        Err(Refused::Signature(
            id("wren.ashdown"),
            SignatureFault::OtherNamespace {
                wanted: drill,
                found: DONE.to_string()
            }
        ))
    );
    assert_eq!(
        judged("wren.ashdown", Role::Driver, DONE, b"{}\n"),
        Err(Refused::Signature(
            id("wren.ashdown"),
            SignatureFault::Changed
        ))
    );
    assert_eq!(
        judged("laptop-7f3a", Role::Device, SEEN, SEAL),
        Err(Refused::Signature(
            id("laptop-7f3a"),
            SignatureFault::OtherKey(wren().public().fingerprint())
        ))
    );
}

#[test]
fn we_accept_what_the_stock_tool_signs() {
    let bench = Bench::new();
    let key = bench.keygen("stock", "");
    let device = DeviceKey::read(&bench.take("stock")).unwrap();
    for namespace in Namespace::all() {
        let armor = bench.sign(&key, namespace.name(), SEAL);
        assert_eq!(device.public().verify(namespace, SEAL, &armor), Ok(()));
        // Ed25519 signatures are a function of key and bytes: both make the same file.
        assert_eq!(device.sign(namespace, SEAL).unwrap(), armor);
    }
}

#[test]
fn a_key_locked_by_the_stock_tool_opens_with_its_passphrase_alone() {
    let bench = Bench::new();
    bench.keygen("stock", PHRASE);
    let key = LockedKey::read(&bench.take("stock")).unwrap();
    let armor = key.sign(&phrase(PHRASE), DONE, SEAL).unwrap();
    let public = bench.take("stock.pub");
    let crew = format!(
        "wren.ashdown,role:driver namespaces=\"{DONE}\" {}\n",
        public.trim_end().replace("wren.ashdown", "Wren Ashdown")
    );
    assert!(Crew::read(crew.as_bytes()).is_ok());
    assert!(
        bench
            .verify(&crew, "wren.ashdown", DONE.name(), SEAL, &armor)
            .good
    );
    assert!(key.sign(&phrase("hay"), DONE, SEAL).is_err());
}

#[test]
fn the_stock_tool_opens_our_keys_and_reads_the_same_public_half() {
    let bench = Bench::new();
    let locked = bench.put_secret("wren", &wren().file().unwrap());
    let device = bench.put_secret("laptop", &laptop().file().unwrap());
    let open = |file: &std::path::Path, passphrase: &str| {
        let arguments: [&OsStr; 5] = [
            "-y".as_ref(),
            "-P".as_ref(),
            passphrase.as_ref(),
            "-f".as_ref(),
            file.as_ref(),
        ];
        ssh_keygen(arguments, b"")
    };
    let opened = open(&locked, PHRASE);
    assert_eq!(
        opened.said.trim_end(),
        format!("{} wren.ashdown", wren().public())
    );
    assert!(!open(&locked, "hay").good);
    assert!(!open(&locked, "").good);
    let opened = open(&device, "");
    assert_eq!(
        opened.said.trim_end(),
        format!("{} laptop-7f3a", laptop().public())
    );
}

#[test]
fn a_fingerprint_is_the_one_the_stock_tool_shows() {
    let bench = Bench::new();
    let file = bench.put("wren.pub", format!("{}\n", wren().public()));
    let arguments: [&OsStr; 3] = ["-l".as_ref(), "-f".as_ref(), file.as_ref()];
    let shown = ssh_keygen(arguments, b"").said;
    assert!(shown.contains(&wren().public().fingerprint()), "{shown}");
}
