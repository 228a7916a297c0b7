package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

const (
	asideFolder = "set-aside"
	// mostAside bounds what is set aside; the oldest goes first.
	mostAside = 50
)

// setAside moves a kept file to the folder for what was not wanted back or could
// not be read. Names begin with the time, so that they sort by it.
func setAside(folder, id string, now time.Time) (string, error) {
	to := filepath.Join(folder, asideFolder)
	if err := os.MkdirAll(to, 0o700); err != nil {
		return "", fmt.Errorf("making the folder for work set aside: %w", inWords(err, ""))
	}
	path := filepath.Join(to, now.UTC().Format("20060102-150405")+"-"+id+workEnding)
	if err := os.Rename(filepath.Join(folder, id+workEnding), path); err != nil {
		return "", fmt.Errorf("setting kept work aside: %w", inWords(err, "it is gone"))
	}
	return path, prune(to, filepath.Base(path))
}

// prune removes the oldest of what was set aside, never the one just come.
func prune(folder, just string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return fmt.Errorf("looking through work set aside: %w", inWords(err, ""))
	}
	for _, e := range entries[:max(0, len(entries)-mostAside)] {
		if e.Name() != just {
			err = errors.Join(err, os.Remove(filepath.Join(folder, e.Name())))
		}
	}
	return err
}
