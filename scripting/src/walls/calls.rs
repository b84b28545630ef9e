//! The calls to the system that this program never needs inside its walls, refused by the system (seccomp).

/// Refuses to start programs, to open connections, and to reach into other processes. Gives whether the system
/// holds it.
#[cfg(target_os = "linux")]
pub(super) fn refuse() -> bool {
    use seccompiler::{BpfProgram, SeccompAction, SeccompFilter, TargetArch};
    let refused = [
        // Other programs.
        libc::SYS_execve,
        libc::SYS_execveat,
        // Connections. What is open already stays open.
        libc::SYS_socket,
        libc::SYS_socketpair,
        libc::SYS_connect,
        libc::SYS_bind,
        // A way around this list.
        libc::SYS_io_uring_setup,
        // Other processes.
        libc::SYS_ptrace,
        libc::SYS_process_vm_readv,
        libc::SYS_process_vm_writev,
        libc::SYS_pidfd_open,
        libc::SYS_pidfd_getfd,
        libc::SYS_kill,
        // The system itself.
        libc::SYS_mount,
        libc::SYS_unshare,
        libc::SYS_setns,
        libc::SYS_bpf,
        libc::SYS_keyctl,
        libc::SYS_perf_event_open,
    ];
    let rules = refused.into_iter().map(|call| (call, Vec::new())).collect();
    let Ok(target) = TargetArch::try_from(std::env::consts::ARCH) else { return false };
    let no = SeccompAction::Errno(libc::EPERM.unsigned_abs());
    SeccompFilter::new(rules, SeccompAction::Allow, no, target)
        .and_then(BpfProgram::try_from)
        .is_ok_and(|program| seccompiler::apply_filter(&program).is_ok())
}

/// Other systems refuse nothing.
#[cfg(not(target_os = "linux"))]
pub(super) fn refuse() -> bool {
    false
}
