package store

import (
	"errors"
	"os"
	"path/filepath"
	"time"

	"underfall/geometry/message"
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
		return "", message.Wrap(inWords(err, ""), "store.setting-aside")
	}
	path := filepath.Join(to, now.UTC().Format("20060102-150405")+"-"+id+workEnding)
	if err := os.Rename(filepath.Join(folder, id+workEnding), path); err != nil {
		return "", message.Wrap(inWords(err, "store.gone"), "store.setting-aside")
	}
	return path, prune(to, filepath.Base(path))
}

// prune removes the oldest of what was set aside, never the one just come.
func prune(folder, just string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return message.Wrap(inWords(err, ""), "store.setting-aside")
	}
	for _, e := range entries[:max(0, len(entries)-mostAside)] {
		if e.Name() != just {
			err = errors.Join(err, os.Remove(filepath.Join(folder, e.Name())))
		}
	}
	return err
}
