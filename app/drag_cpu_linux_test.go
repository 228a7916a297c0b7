package app

import (
	"syscall"
	"time"
)

// usedCPU is the time that all processors have worked for the tests so far.
func usedCPU() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
