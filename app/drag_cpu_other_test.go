//go:build !linux

package app

import "time"

// usedCPU is the time that all processors have worked for the tests so far; nought where it is not known.
func usedCPU() time.Duration { return 0 }
