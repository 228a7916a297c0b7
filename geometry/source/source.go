// Package source says where a figure comes from and how far that has been checked:
// of the rules' limits, and of whatever else is taken from a document.
package source

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/message"
)

// Mark is how a figure was checked against its source.
type Mark string

// The marks, surest first.
const (
	Read      Mark = "read"            // in the document itself
	Official  Mark = "official-page"   // on a page of the body that publishes the document
	Secondary Mark = "secondary"       // as somebody else quotes the document
	Derived   Mark = "derived"         // follows from geometry, or from what is entered
	Practice  Mark = "common-practice" // what the trade does; no source
	Memory    Mark = "memory"          // not yet checked
)

// Marks are all marks, surest first.
func Marks() []Mark { return []Mark{Read, Official, Secondary, Derived, Practice, Memory} }

// Sure tells whether it was seen written down, or follows: common practice and memory
// are neither.
func (m Mark) Sure() bool { return slices.Contains([]Mark{Read, Official, Secondary, Derived}, m) }

// Message says how it was checked.
func (m Mark) Message() message.Message { return message.Of(m.Name()) }

// Name is the id of the words for it.
func (m Mark) Name() message.ID { return message.ID("mark." + string(m)) }

// IDs are the ids of the texts of all marks.
func IDs() []message.ID { return message.Names(Marks()) }

// Sheet is a data sheet whose figures are entered with the job.
type Sheet string

// The sheets.
const (
	DrainSheet Sheet = "drain"
	TrapSheet  Sheet = "trap"
)

// Sheets are all data sheets.
func Sheets() []Sheet { return []Sheet{DrainSheet, TrapSheet} }

// Source is a document by title, edition and clause, as they stand on it, and how the
// figure was checked.
type Source struct {
	Document string `json:"document,omitempty"`
	Edition  string `json:"edition,omitempty"`
	Clause   string `json:"clause,omitempty"`
	// Sheet is the data sheet it is entered from in place of a document.
	Sheet Sheet `json:"sheet,omitempty"`
	Mark  Mark  `json:"mark"`
}

// Title is the document on one line; empty where there is none.
func (s Source) Title() string {
	parts := slices.DeleteFunc([]string{s.Document, s.Edition, s.Clause}, func(part string) bool { return part == "" })
	return strings.Join(parts, ", ")
}

// Message says where the figure comes from. What is common practice or follows from
// the geometry has no more to say than that.
func (s Source) Message() message.Message {
	switch s.Sheet {
	case DrainSheet:
		return message.Of("source.drain-sheet")
	case TrapSheet:
		return message.Of("source.trap-sheet")
	}
	if s.Document == "" {
		return s.Mark.Message()
	}
	return message.Of("source.document", message.Name("title", s.Title()), message.In("mark", s.Mark.Message()))
}

// Check tells what is wrong with the source, to whoever wrote it down. Titles are
// what a reader can look for anywhere; where a page lay on some day is not.
func (s Source) Check() error {
	known := slices.Contains(Marks(), s.Mark)
	switch {
	case !known:
		return errors.New("mark " + string(s.Mark) + " is not known")
	case s.Sheet != "" && !slices.Contains(Sheets(), s.Sheet):
		return errors.New("data sheet " + string(s.Sheet) + " is not known")
	case s.Sheet != "" && (s.Document != "" || s.Mark != Derived):
		return errors.New("a figure from a data sheet that is entered is derived and has no document")
	case s.Document == "" && s.Mark != Derived && s.Mark != Practice:
		return errors.New("the document of the source must be given")
	case s.Document == "" && (s.Edition != "" || s.Clause != ""):
		return errors.New("an edition or a clause must have its document")
	}
	for _, sign := range []string{"://", "www."} {
		if strings.Contains(s.Title(), sign) {
			return errors.New("a source must be named by its title, not by a web address")
		}
	}
	return nil
}

// IsEdition tells whether a text is an edition of rules: a year of this century and a
// month, 2026-11.
func IsEdition(text string) bool {
	year, month, ok := strings.Cut(text, "-")
	if !ok || len(year) != 4 || len(month) != 2 {
		return false
	}
	_, errYear := strconv.Atoi(year)
	_, errMonth := strconv.Atoi(month)
	return errYear == nil && errMonth == nil && "2000" <= year && year <= "2099" && "01" <= month && month <= "12"
}
