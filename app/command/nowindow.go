//go:build nowindow

package command

// opens and pictures are nothing: this build has neither a window nor pictures in space, and
// so needs no graphics of the system.
func opens() doing    { return nil }
func pictures() doing { return nil }
