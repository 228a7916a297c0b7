// Package store is how Underfall meets the disk: it reads plain files of a
// bounded size, writes a file whole or not at all, tells whether another program
// changed one meanwhile, and keeps unsaved work where a crash cannot take it.
package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"
	"time"
)

// LargestJob is the most bytes a job's file may have: far more than any job
// needs, little enough to read at once.
const LargestJob = 4 << 20

// Reasons a file is refused. Their text is made to stand after the file's name.
var (
	ErrFolder   = errors.New("this is a folder, not a file")
	ErrNotPlain = errors.New("this is a pipe or a device, not a file on a disk")
	ErrTooLarge = errors.New("the file is too large to be a job")
	ErrReadOnly = errors.New("the file is read-only; save under another name, or allow writing to it first")
)

// reason is an error of the operating system in words for the person at the
// screen; errors.Is still finds the cause.
type reason struct {
	text  string
	cause error
}

func (r reason) Error() string { return r.text }
func (r reason) Unwrap() error { return r.cause }

// inWords puts an error of the operating system in words; missing is what it
// means here that something does not exist.
func inWords(err error, missing string) error {
	if already := (reason{}); errors.As(err, &already) {
		return err
	}
	for _, c := range []struct {
		cause error
		text  string
	}{
		{fs.ErrNotExist, missing},
		{syscall.ENOTDIR, missing},
		{syscall.EROFS, "this disk can only be read from; choose a folder on another one"},
		{syscall.ENOSPC, "the disk is full; make room on it, or save to another one"},
		{syscall.EDQUOT, "your share of the disk is used up; make room on it, or save to another one"},
		{syscall.ENAMETOOLONG, "the name is too long; choose a shorter one"},
		{syscall.ELOOP, "the link leads back to itself"},
		{fs.ErrPermission, "you have no permission for this; choose another folder, or ask whoever looks after this computer"},
		{syscall.EIO, "the disk reports a fault; save to another one, and have this one looked at"},
	} {
		if errors.Is(err, c.cause) {
			return reason{c.text, err}
		}
	}
	return err
}

// Stamp tells one state of a file from another.
type Stamp struct {
	Bytes    int64     `json:"bytes"`
	Modified time.Time `json:"modified"`
	Sum      string    `json:"sum"` // SHA-256 of the content, hexadecimal
}

// IsZero tells whether there was no file to take a stamp of.
func (s Stamp) IsZero() bool { return s.Sum == "" }

func stampOf(data []byte, info fs.FileInfo) Stamp {
	sum := sha256.Sum256(data)
	return Stamp{Bytes: int64(len(data)), Modified: info.ModTime().UTC(), Sum: hex.EncodeToString(sum[:])}
}

// Read reads a plain file of at most so many bytes, following links. What kind
// of file it is and how large is looked at before anything is read, so that
// neither a pipe nor a device nor an endless file stops the program.
func Read(path string, most int64) ([]byte, Stamp, error) {
	const missing = "there is no such file"
	info, err := os.Stat(path)
	if err != nil {
		return nil, Stamp{}, inWords(err, missing)
	}
	if err := plainFile(info, most); err != nil {
		return nil, Stamp{}, err
	}
	// Should it have become a pipe just now, opening it must not wait.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, Stamp{}, inWords(err, missing)
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil {
		return nil, Stamp{}, inWords(err, missing)
	}
	if err := plainFile(info, most); err != nil {
		return nil, Stamp{}, err
	}
	data, err := ReadAll(f, most)
	if err != nil {
		return nil, Stamp{}, err
	}
	return data, stampOf(data, info), nil
}

// ReadAll reads all there is, and refuses more than so many bytes.
func ReadAll(r io.Reader, most int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return nil, inWords(err, "there is no such file")
	}
	if int64(len(data)) > most {
		return nil, tooLarge(most)
	}
	return data, nil
}

func plainFile(info fs.FileInfo, most int64) error {
	switch {
	case info.IsDir():
		return ErrFolder
	case !info.Mode().IsRegular():
		return ErrNotPlain
	case info.Size() > most:
		return tooLarge(most)
	}
	return nil
}

func tooLarge(most int64) error {
	return fmt.Errorf("%w: it has more than %d MB", ErrTooLarge, most>>20)
}

// State is how a file stands against an earlier stamp of it.
type State int

// What may have become of a file.
const (
	NoFile  State = iota // there was none
	Same                 // its content is what it was
	Changed              // another program changed it
	Gone                 // it was moved or deleted
)

// Against compares the file as it is now with the stamp.
func (s Stamp) Against(path string) State {
	if path == "" {
		return NoFile
	}
	_, now, err := Read(path, LargestJob)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Gone
	case err != nil || now.Sum != s.Sum:
		return Changed
	}
	return Same
}
