// Package store is how Underfall meets the disk: it reads plain files of a
// bounded size, writes a file whole or not at all, tells whether another program
// changed one meanwhile, and keeps unsaved work where a crash cannot take it.
package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
	"time"

	"underfall/geometry/message"
)

// LargestJob is the most bytes a job's file may have: far more than any job
// needs, little enough to read at once.
const LargestJob = 4 << 20

// Reasons a file is refused. Their text is made to stand after the file's name.
var (
	ErrFolder   error = message.Fail("store.folder")
	ErrNotPlain error = message.Fail("store.not-plain")
	ErrTooLarge error = message.Fail("store.too-large")
	ErrReadOnly error = message.Fail("store.read-only")
)

// inWords gives an error of the operating system words for the person at the
// screen; errors.Is still finds the cause. missing is what it means here that
// something does not exist, if anything.
func inWords(err error, missing message.ID) error {
	if already := (*message.Error)(nil); errors.As(err, &already) {
		return err
	}
	for _, c := range []struct {
		cause error
		says  message.ID
	}{
		{fs.ErrNotExist, missing},
		{syscall.ENOTDIR, missing},
		{syscall.EROFS, "store.read-only-disk"},
		{syscall.ENOSPC, "store.disk-full"},
		{syscall.EDQUOT, "store.share-used-up"},
		{syscall.ENAMETOOLONG, "store.long-name"},
		{syscall.ELOOP, "store.link-loop"},
		{fs.ErrPermission, "store.no-permission"},
		{syscall.EIO, "store.disk-fault"},
	} {
		if c.says != "" && errors.Is(err, c.cause) {
			return &message.Error{What: message.Of(c.says), Cause: err}
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
	const missing message.ID = "store.no-such-file"
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
		return nil, inWords(err, "store.no-such-file")
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
	return &message.Error{What: message.Of("store.larger-than", message.No("megabytes", int(most>>20))), Cause: ErrTooLarge}
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
