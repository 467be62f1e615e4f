//! The examples that stand first in every help.

pub(super) const HAMES: &str = "\
Examples:
  hames                        the start screen; the demo barn, until you make a logbook
  hames --plain                the same line by line, for a screen reader or a pipe
  hames walk --rig rig.yaml    walk your own rig; makes a logbook the first time
  hames verify ~/.local/share/hames/logbook
";

pub(super) const WALK: &str = "\
Examples:
  hames walk --demo                      walk a rig of the invented barn
  hames walk --rig rig.yaml              walk your rig; the first time a logbook is made
  hames walk --rig rig.yaml --plain      the same line by line
  hames walk --rig rig.yaml --from-paper '2026-11-20 06:10'
  hames walk --rig rig.yaml --checklist my-list.yaml --logbook /media/barn/logbook
";

pub(super) const VERIFY: &str = "\
Examples:
  hames verify LOGBOOK                   every trip, and the order of trips
  hames verify LOGBOOK/dev/laptop-7f3a/t/000007-9f3c01ab
  hames verify TRIP --crew allowed_signers     by the crew file you trust
  hames verify LOGBOOK --json            one JSON object a line
";

pub(super) const LINT: &str = "\
Examples:
  hames lint my-list.yaml                every fault with line and column
  hames lint --explain two-acts          why this is a rule, and an example
  hames lint rig.yaml barn.yaml my-list.yaml --json
";

pub(super) const RIG: &str = "\
Examples:
  hames rig                              look at your rig, and try what would move it
  hames rig rig.yaml --plain             every figure of your rig, and where each comes from
  hames rig juniper --air 40F --json     with what was read today, as one JSON object
  hames rig my-rig.yaml --describe       describe your rig, question by question
  hames rig --example > my-rig.yaml      a rig file with comments, to change into yours
";

pub(super) const DUE: &str = "\
Examples:
  hames due                              services, tires, instruments and papers of every rig
  hames due juniper --odometer 48210mi   with the distance that is left to each service
  hames due rig.yaml --json              as one JSON object
";

pub(super) const WEIGH: &str = "\
Examples:
  hames weigh                            asked ticket by ticket, with where to park which axle
  hames weigh --bumper-pull --unit lb --alone 3440,2860 --hitched 3200,3820,4960
  hames weigh --rig juniper --unit lb --alone 3440,2860=6300 --hitched 3200,3820,4960 \\
      --bars 3340,3640,5000 --trailer 5680 --step 20
";

pub(super) const FIGURE: &str = "\
Examples:
  hames figure                           every formula with its name
  hames figure awg <<< '{\"gauge\": 12}'   one formula: inputs as JSON in, outputs as JSON out
  hames figure awg --page                what there is to know of it
";

pub(super) const CHECKLIST: &str = "\
Examples:
  hames checklist list                        what can be walked, and what of it is approved
  hames checklist new my-list.yaml            a pattern with comments, to change into yours
  hames checklist whole hitch-bumper          a checklist with its shared steps in their places
  hames checklist compare my-list.yaml        what changed against the approved one
  hames checklist paper departure --rig juniper --html > sheet.html
  hames checklist approve my-list.yaml        a manager signs it as it is, to the byte
  hames checklist schema > checklist.json     for editors that complete and check
";

pub(super) const BARN: &str = "\
Examples:
  hames barn                             what is set, what is left at its default, and why
  hames barn --logbook DIR --json
  hames barn --example > barn.yaml       a settings file with comments, to change into yours
";

pub(super) const CREW: &str = "\
Examples:
  hames crew list                        who may sign in your logbook
  hames crew list --all --json           with those who have left
  hames crew add \"Tobias Fenn\" --role groom
  hames crew add \"Odile Marsh\" --role manager --agent      her hardware key, by the ssh-agent
  hames crew request --to /media/stick/laptop.pub          on a new laptop, for the manager
  hames crew add --device --public /media/stick/laptop.pub
  hames crew retire tobias.fenn --why \"moved away\"
  hames crew revoke laptop-7f3a --why \"stolen at the show\"
  hames crew roles tobias.fenn --role groom --role driver
  hames crew settle                      two managers changed the crew apart
  hames crew sign-off tobias.fenn --rig juniper --checklist hitch-bumper
";

pub(super) const DOCTOR: &str = "\
Examples:
  hames doctor                           look at the logbook and at this laptop
  hames doctor --logbook DIR --read-only --json
";

pub(super) const LOGBOOK: &str = "\
Examples:
  hames logbook                          a screen: a month, its trips, one trip opened; text with --plain
  hames logbook --demo                   the year of an invented barn
  hames logbook --rig juniper --since 2026-11-01 --open
  hames logbook receipt 7Q2M4-K8ZNK      which trip a code from the cab book or the phone is of
  hames logbook questions                odometers and clocks that do not fit together
  hames logbook trends --rig juniper     what leaks, fades, warms or wears, and by when
  hames logbook trace gauge-100 --error '2 psi'
  hames logbook table readings > readings.csv
  hames logbook export /media/stick/barn   a copy that anybody can check
  hames logbook merge /media/stick       take in what a stick or another laptop has
  hames logbook merge LOGBOOK --look     only look what a sync tool left in it
  hames logbook countersign 7Q2M4-K8ZNK  a manager looks at a trip and signs what they think of it
  hames logbook close-fork laptop-7f3a 12
  hames logbook accept-loss laptop-7f3a 5..7 --why \"The laptop was stolen.\"
  hames logbook prune --before 2023-01-01 --why \"Kept for three years.\"
";

pub(super) const CREW_LIST: &str = "\
Examples:
  hames crew list                        who may sign in your logbook
  hames crew list --all --json           with those who have left
";

pub(super) const CREW_ADD: &str = "\
Examples:
  hames crew add \"Tobias Fenn\" --role groom              beside you; they type a passphrase
  hames crew add \"Tobias Fenn\" --role groom --import ~/.ssh/id_ed25519
  hames crew add \"Odile Marsh\" --role manager --agent    her hardware key, by the ssh-agent
  hames crew add --role groom --public /media/stick/tobias.pub
  hames crew add --device --public /media/stick/laptop.pub
";

pub(super) const CREW_REQUEST: &str = "\
Examples:
  hames crew request --to /media/stick/laptop.pub         a new laptop, for the manager to let in
  hames crew request \"Tobias Fenn\" --to /media/stick/tobias.pub
  hames crew request wren.ashdown --import /media/stick/wren.ashdown
                                         who is in the crew brings the key they have
";

pub(super) const CREW_RETIRE: &str = "\
Examples:
  hames crew retire tobias.fenn --why \"moved away\"
";

pub(super) const CREW_REVOKE: &str = "\
Examples:
  hames crew revoke laptop-7f3a --why \"stolen at the show\"
  hames crew revoke wren.ashdown --why \"on that laptop\" --new-key
";

pub(super) const CREW_ROLES: &str = "\
Examples:
  hames crew roles tobias.fenn --role groom --role driver     all of them, each time
";

pub(super) const CREW_SETTLE: &str = "\
Examples:
  hames crew settle                      both changes, with who made them
  hames crew settle 3fa1                 this one goes on
";

pub(super) const CREW_SIGN_OFF: &str = "\
Examples:
  hames crew sign-off tobias.fenn --rig juniper --checklist hitch-bumper
  hames crew sign-off tobias.fenn        every rig, every checklist
  hames crew sign-off tobias.fenn --withdraw
";

pub(super) const COUNTERSIGN: &str = "\
Examples:
  hames logbook countersign 7Q2M4-K8ZNK
  hames logbook countersign laptop-7f3a/7 laptop-7f3a/8 --by odile.marsh
";

pub(super) const ASSIGN: &str = "\
Examples:
  hames logbook assign barn-laptop/7 floor --owner tobias.fenn --due 2026-12-01
  hames logbook assign barn-laptop/7 tire/left-rear --outside 'Alder Road shop' --due-at '48700 mi'
";

pub(super) const CLOSE_FORK: &str = "\
Examples:
  hames logbook close-fork laptop-7f3a 12      the histories, to choose by
  hames logbook close-fork laptop-7f3a 12 --goes-on 000012-9f3c01ab --why \"A disk was copied.\"
  hames logbook close-fork odile.marsh 5       what one manager signed on two laptops apart
  hames logbook close-fork odile.marsh 5 --join --why \"I signed at home too.\"
";

pub(super) const ACCEPT_LOSS: &str = "\
Examples:
  hames logbook accept-loss laptop-7f3a 5..7 --why \"The laptop was stolen.\"
";

pub(super) const PRUNE: &str = "\
Examples:
  hames logbook prune --before 2023-01-01 --why \"Kept for three years.\"
  hames logbook prune laptop-7f3a/7 --why \"Asked for by the family.\"
  hames logbook prune                    finish what was pruned before, or elsewhere
";

pub(super) const DRILL: &str = "\
Examples:
  hames drill                              the drill room: who learns, and what next
  hames drill --list                       every scenario, and what it is about
  hames drill --about tires                one about tires, line by line
  hames drill receiver-pin --stage solo    no hints; told after the run
  hames drill receiver-pin --seed 7        the same drill each time
  hames drill --check-ride hitch-bumper --examiner odile.marsh --learner wren.ashdown
                                           a whole list, examined; both sign
";
