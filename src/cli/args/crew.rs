//! `hames crew` as typed.

use crate::cli::examples;
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

/// What is asked of the crew.
#[derive(Clone, Debug, PartialEq, Eq, Subcommand)]
pub enum CrewCommand {
    /// Everyone in the crew, with roles, key and what they are signed off for
    #[command(before_help = examples::CREW_LIST)]
    List {
        /// Those who have left as well
        #[arg(long)]
        all: bool,
        /// One JSON object a line
        #[arg(long)]
        json: bool,
    },
    /// Let a person or a laptop into the crew; without a key named, one is made here
    #[command(before_help = examples::CREW_ADD)]
    Add {
        /// The printed name; a request says it already
        #[arg(value_name = "NAME")]
        name: Option<String>,
        /// What they sign as; several where it is given again
        #[arg(
            long,
            value_enum,
            value_name = "ROLE",
            required_unless_present = "device"
        )]
        role: Vec<PersonRole>,
        /// A laptop, which witnesses what is done on it
        #[arg(long, conflicts_with_all = ["role", "import", "agent"])]
        device: bool,
        /// The id in records; else made of the name
        #[arg(long, value_name = "ID")]
        id: Option<String>,
        #[command(flatten)]
        key: KeyFrom,
        #[command(flatten)]
        by: By,
    },
    /// On a laptop where nobody can sign yet: make or bring a key, and the line for a manager
    #[command(before_help = examples::CREW_REQUEST)]
    Request {
        /// The printed name of a person; this laptop itself without one
        #[arg(value_name = "NAME")]
        name: Option<String>,
        /// The id in records; else made of the name
        #[arg(long, value_name = "ID", requires = "name")]
        id: Option<String>,
        /// A key file of theirs under a passphrase, such as from their other laptop; kept here
        #[arg(long, value_name = "FILE", requires = "name")]
        import: Option<PathBuf>,
        /// Write the line into this new file, such as one on a stick
        #[arg(long, value_name = "FILE")]
        to: Option<PathBuf>,
    },
    /// Someone leaves, or a laptop goes: what was signed before stands
    #[command(before_help = examples::CREW_RETIRE)]
    Retire {
        /// Who
        #[arg(value_name = "ID")]
        id: String,
        /// Why
        #[arg(long, value_name = "WORDS")]
        why: String,
        #[command(flatten)]
        by: By,
    },
    /// A key is lost or stolen: only what a manager has witnessed stands
    #[command(before_help = examples::CREW_REVOKE)]
    Revoke {
        /// Whose
        #[arg(value_name = "ID")]
        id: String,
        /// Why
        #[arg(long, value_name = "WORDS")]
        why: String,
        /// The same person goes on with a new key, made here unless one is named
        #[arg(long)]
        new_key: bool,
        #[command(flatten)]
        key: KeyFrom,
        #[command(flatten)]
        by: By,
    },
    /// What a person signs as from now on
    #[command(before_help = examples::CREW_ROLES)]
    Roles {
        /// Who
        #[arg(value_name = "ID")]
        id: String,
        /// Each role they have from now on
        #[arg(long, value_enum, value_name = "ROLE", required = true)]
        role: Vec<PersonRole>,
        #[command(flatten)]
        by: By,
    },
    /// After two managers changed the crew out of each other's reach: which change goes on
    #[command(before_help = examples::CREW_SETTLE)]
    Settle {
        /// The first characters of the hash of the crew file; without it the branches are told
        #[arg(value_name = "HASH")]
        file: Option<String>,
        #[command(flatten)]
        by: By,
    },
    /// What a person is signed off for, the whole of it; without rigs every rig, without checklists
    /// every checklist
    #[command(before_help = examples::CREW_SIGN_OFF)]
    SignOff {
        /// Who
        #[arg(value_name = "ID")]
        id: String,
        /// A rig, by id
        #[arg(long, value_name = "ID")]
        rig: Vec<String>,
        /// A checklist, by id
        #[arg(long, value_name = "ID")]
        checklist: Vec<String>,
        /// For what this check ride is good for: the drill that was passed and signed by both
        #[arg(long, value_name = "DRILL", conflicts_with_all = ["rig", "checklist", "withdraw"])]
        check_ride: Option<String>,
        /// For nothing any more
        #[arg(long, conflicts_with_all = ["rig", "checklist"])]
        withdraw: bool,
        #[command(flatten)]
        by: By,
    },
}

/// Where the key comes from; made here under a passphrase where nothing is named.
#[derive(Clone, Debug, Default, PartialEq, Eq, Args)]
#[group(multiple = false)]
pub struct KeyFrom {
    /// An OpenSSH private key file under a passphrase; a copy is kept here
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) import: Option<PathBuf>,
    /// A public key file, or a request: the key itself lies elsewhere
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) public: Option<PathBuf>,
    /// A key the ssh-agent holds, hardware keys among them; which, where it holds several
    #[arg(long, value_name = "FINGERPRINT", num_args = 0..=1, default_missing_value = "")]
    pub(in crate::cli) agent: Option<String>,
}

/// Who signs it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Args)]
pub struct By {
    /// The manager who signs, by id, where several have a key here
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) by: Option<String>,
}

/// What a person signs as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PersonRole {
    /// Hitches and looks
    Groom,
    /// Drives
    Driver,
    /// Changes the crew, approves checklists, looks at trips
    Manager,
    /// Examines check rides
    Examiner,
}
