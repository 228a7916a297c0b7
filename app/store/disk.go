package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"runtime"
	"syscall"
)

// disk does the file operations that writing needs. Tests put one with faults
// in its place.
type disk interface {
	// create makes a new file and refuses one that is there.
	create(path string, mode fs.FileMode) (file, error)
	rename(from, to string) error
	remove(path string) error
	// syncFolder makes sure that the names in a folder outlast a power cut.
	syncFolder(path string) error
}

// file is a file being written.
type file interface {
	io.WriteCloser
	Sync() error
	Chmod(fs.FileMode) error
	Chown(user, group int) error
	Stat() (fs.FileInfo, error)
}

// realDisk is the operating system's.
type realDisk struct{}

func (realDisk) create(path string, mode fs.FileMode) (file, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err // not a file that is nil within
	}
	return f, nil
}

func (realDisk) rename(from, to string) error { return os.Rename(from, to) }
func (realDisk) remove(path string) error     { return os.Remove(path) }

func (realDisk) syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced there
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	err = f.Sync()
	// Some network disks know no such thing.
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		return nil
	}
	return err
}
