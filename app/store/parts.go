package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/part"
)

const (
	// ownParts is the file of the user's own parts, in the folder for the program's own
	// things.
	ownParts = "parts.json"
	// Endings of files of parts.
	endingJSON, endingCSV = ".json", ".csv"
)

// ReadParts reads parts from a file: from a table where it ends in .csv, else from
// JSON.
func ReadParts(path string) (part.Shelf, error) {
	data, _, err := Read(path, part.LargestShelf)
	if errors.Is(err, ErrTooLarge) {
		err = part.TooLarge()
	}
	var s part.Shelf
	if err == nil {
		if strings.EqualFold(filepath.Ext(path), endingCSV) {
			s, err = part.ParseCSV(data)
		} else {
			s, err = part.ParseShelf(data)
		}
	}
	if err != nil {
		return part.Shelf{}, message.Wrap(err, "store.reading-parts", message.Name("file", Plain(path)))
	}
	return s, nil
}

// WriteParts writes parts to a file, as its ending says: .csv for a table, .json.
func WriteParts(path string, s part.Shelf) error {
	write := s.Marshal
	switch strings.ToLower(filepath.Ext(path)) {
	case endingJSON:
	case endingCSV:
		write = func() ([]byte, error) { return part.MarshalCSV(s) }
	default:
		return message.Fail("store.parts-ending", message.Name("file", Plain(path)))
	}
	data, err := write()
	if err == nil {
		_, err = Write(path, data)
	}
	if err != nil {
		return message.Wrap(err, "store.writing-parts", message.Name("file", Plain(path)))
	}
	return nil
}

// OwnParts are the user's own parts, from the folder for the program's own things; none
// where there is no such folder or none are in it. What cannot be read is an error, and
// stays as it is. known are the parts that come with Underfall: those of the user's own
// that go by their ids need no name.
func OwnParts(folder string, known part.Shelf) (part.Shelf, error) {
	none := part.Shelf{Version: part.Version}
	if folder == "" {
		return none, nil
	}
	path := filepath.Join(folder, ownParts)
	own, err := ReadParts(path)
	if errors.Is(err, fs.ErrNotExist) {
		return none, nil
	}
	if err == nil {
		if err = own.Named(known); err != nil {
			err = message.Wrap(err, "store.reading-parts", message.Name("file", Plain(path)))
		}
	}
	if err != nil {
		return none, message.Wrap(err, "store.own-parts")
	}
	return own, nil
}

// KeepParts puts parts that are new or changed before the user's own, in place of those
// of their kind and id, and tells how many they are.
func KeepParts(folder string, known, more part.Shelf) (changed int, err error) {
	if folder == "" {
		return 0, message.Fail("store.no-own-folder")
	}
	if err := more.Named(known); err != nil {
		return 0, err
	}
	own, err := OwnParts(folder, known)
	if err != nil {
		return 0, err
	}
	there := known.With(own)
	more = more.Without(func(p part.Part) bool {
		return reflect.DeepEqual(there.Find(p.Kind(), p.Of().ID), p)
	})
	changed = more.Count()
	if changed == 0 {
		return 0, nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return 0, message.Wrap(inWords(err, "store.no-folder"), "store.keeping", message.Name("folder", Plain(folder)))
	}
	return changed, WriteParts(filepath.Join(folder, ownParts), own.With(more))
}

// ImportParts takes what is new or changed in a file of parts into the user's own, and tells how much that
// was.
func ImportParts(folder string, known part.Shelf, from string) (message.Message, error) {
	more, err := ReadParts(from)
	if err != nil {
		return message.Message{}, err
	}
	changed, err := KeepParts(folder, known, more)
	if changed == 0 {
		return message.Of("store.parts-same", message.Name("file", Plain(from))), err
	}
	return message.Of("store.parts-imported", message.N("n", changed), message.Name("file", Plain(from))), err
}

// ExportParts is WriteParts that tells how many there were.
func ExportParts(all part.Shelf, to string) (message.Message, error) {
	return message.Of("store.parts-exported", message.N("n", all.Count()), message.Name("file", Plain(to))), WriteParts(to, all)
}
