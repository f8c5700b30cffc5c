#include "AudioThreadWatch.h"

#include <cerrno>
#include <csignal>
#include <cstddef>
#include <cstdlib>
#include <dlfcn.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <pthread.h>
#include <semaphore.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <ucontext.h>
#include <unistd.h>

namespace watch
{
namespace
{
thread_local bool isWatched = false;
thread_local Counts counts;

void countAllocation() noexcept
{
    if (isWatched)
        ++counts.allocations;
}

void countLock() noexcept
{
    if (isWatched)
        ++counts.locks;
}

void onTrappedCall (int, siginfo_t* info, void* context)
{
    if (isWatched)
    {
        ++counts.systemCalls;
        counts.lastSystemCall = info->si_syscall;
    }
#if defined(__x86_64__)
    // What is left of the thread runs on as if the kernel did not know the call.
    static_cast<ucontext_t*> (context)->uc_mcontext.gregs[REG_RAX] = -ENOSYS;
#endif
}
} // namespace

void start() noexcept
{
    counts = {};
    isWatched = true;
}

Counts stop() noexcept
{
    isWatched = false;
    return counts;
}

bool trapSystemCalls() noexcept
{
    struct sigaction action = {};
    action.sa_sigaction = onTrappedCall;
    action.sa_flags = SA_SIGINFO | SA_NODEFER;
    if (sigaction (SIGSYS, &action, nullptr) != 0)
        return false;

    // Only what ends the handler and the thread is let through.
    const auto number = static_cast<std::uint32_t> (offsetof (seccomp_data, nr));
    sock_filter filter[] = { BPF_STMT (BPF_LD | BPF_W | BPF_ABS, number),
                             BPF_JUMP (BPF_JMP | BPF_JEQ | BPF_K, SYS_rt_sigreturn, 2, 0),
                             BPF_JUMP (BPF_JMP | BPF_JEQ | BPF_K, SYS_exit, 1, 0), BPF_STMT (BPF_RET | BPF_K, SECCOMP_RET_TRAP),
                             BPF_STMT (BPF_RET | BPF_K, SECCOMP_RET_ALLOW) };
    const sock_fprog program{ static_cast<unsigned short> (sizeof (filter) / sizeof (*filter)), filter };
    return prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && prctl (PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

} // namespace watch

// The functions that are replaced. The C library offers its allocator under these other names (glibc).
extern "C"
{
    void* __libc_malloc (std::size_t);
    void* __libc_calloc (std::size_t, std::size_t);
    void* __libc_realloc (void*, std::size_t);
    void* __libc_memalign (std::size_t, std::size_t);
    void __libc_free (void*);

    void* malloc (std::size_t size)
    {
        watch::countAllocation();
        return __libc_malloc (size);
    }

    void* calloc (std::size_t count, std::size_t size)
    {
        watch::countAllocation();
        return __libc_calloc (count, size);
    }

    void* realloc (void* memory, std::size_t size)
    {
        watch::countAllocation();
        return __libc_realloc (memory, size);
    }

    void* memalign (std::size_t alignment, std::size_t size)
    {
        watch::countAllocation();
        return __libc_memalign (alignment, size);
    }

    void* aligned_alloc (std::size_t alignment, std::size_t size)
    {
        watch::countAllocation();
        return __libc_memalign (alignment, size);
    }

    int posix_memalign (void** memory, std::size_t alignment, std::size_t size)
    {
        watch::countAllocation();
        *memory = __libc_memalign (alignment, size);
        return *memory == nullptr ? ENOMEM : 0;
    }

    void free (void* memory)
    {
        if (watch::isWatched && memory != nullptr)
            ++watch::counts.frees;
        __libc_free (memory);
    }

// The C library's own locks are looked up before main() and before any second thread. What locks earlier than that is alone.
#define SNAREWRIGHT_COUNT_LOCK(name, Argument)                                                                                   \
    static int (*original_##name) (Argument*) = nullptr;                                                                         \
    __attribute__ ((constructor)) static void find_##name()                                                                      \
    {                                                                                                                            \
        original_##name = reinterpret_cast<int (*) (Argument*)> (dlsym (RTLD_NEXT, #name));                                      \
    }                                                                                                                            \
    int name (Argument* argument) noexcept                                                                                       \
    {                                                                                                                            \
        watch::countLock();                                                                                                      \
        return original_##name != nullptr ? original_##name (argument) : 0;                                                      \
    }

    SNAREWRIGHT_COUNT_LOCK (pthread_mutex_lock, pthread_mutex_t)
    SNAREWRIGHT_COUNT_LOCK (pthread_mutex_trylock, pthread_mutex_t)
    SNAREWRIGHT_COUNT_LOCK (pthread_rwlock_rdlock, pthread_rwlock_t)
    SNAREWRIGHT_COUNT_LOCK (pthread_rwlock_wrlock, pthread_rwlock_t)
    SNAREWRIGHT_COUNT_LOCK (pthread_cond_signal, pthread_cond_t)
    SNAREWRIGHT_COUNT_LOCK (pthread_cond_broadcast, pthread_cond_t)
    SNAREWRIGHT_COUNT_LOCK (sem_post, sem_t)
#undef SNAREWRIGHT_COUNT_LOCK
}
