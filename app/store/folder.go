package store

import (
	"os"
	"path/filepath"
)

// ConfigFolder is the folder the program keeps its own things in: the one asked
// for, else in the user's; empty when this computer names none.
func ConfigFolder(asked string) string {
	if asked == "" {
		dir, err := os.UserConfigDir()
		if err != nil {
			return "" // which the window says as long as it is open
		}
		return filepath.Join(dir, "underfall")
	}
	// It stays the same one wherever the program goes.
	if folder, err := filepath.Abs(asked); err == nil {
		return folder
	}
	return asked
}
