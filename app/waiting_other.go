//go:build !linux

package app

// onFirstThread says no: elsewhere nobody has looked at how the toolkit's loop takes to waiting, so it does not.
func onFirstThread() bool { return false }
