//! The one test binary: every file below is a module here, and a test holds that to be so.
