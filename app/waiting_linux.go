package app

import (
	"os"
	"syscall"
)

// onFirstThread tells whether it is called on the thread that the program began on, where the toolkit has its loop.
func onFirstThread() bool { return syscall.Gettid() == os.Getpid() }
