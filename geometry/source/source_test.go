package source_test

import (
	"strings"
	"testing"

	"underfall/geometry/source"
)

func TestWhatSourcesSay(t *testing.T) {
	for want, s := range map[string]source.Source{
		`source.document{title: "EN 1, 2020, 6.4", mark: mark.read}`: {Document: "EN 1", Edition: "2020", Clause: "6.4", Mark: source.Read},
		`source.document{title: "EN 1, 6.4", mark: mark.memory}`:     {Document: "EN 1", Clause: "6.4", Mark: source.Memory},
		"mark.common-practice": {Mark: source.Practice},
		"mark.derived":         {Mark: source.Derived},
		"source.trap-sheet":    {Sheet: source.TrapSheet, Mark: source.Derived},
		"source.drain-sheet":   {Sheet: source.DrainSheet, Mark: source.Derived},
	} {
		if got := s.Message().String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
		if err := s.Check(); err != nil {
			t.Errorf("%s: %v", want, err)
		}
	}
	if got := source.IDs(); len(got) != len(source.Marks()) || got[0] != "mark.read" {
		t.Errorf("%v", got)
	}
}

func TestSureMarks(t *testing.T) {
	for m, want := range map[source.Mark]bool{source.Read: true, source.Official: true, source.Secondary: true, source.Derived: true, source.Practice: false, source.Memory: false, "": false} {
		if got := m.Sure(); got != want {
			t.Errorf("%q is sure: %v, want %v", m, got, want)
		}
	}
}

func TestSourcesRefused(t *testing.T) {
	for says, s := range map[string]source.Source{
		"is not known":         {Document: "EN 1", Mark: "trust me"},
		"document of":          {Mark: source.Read},
		"must have its":        {Clause: "6", Mark: source.Practice},
		"web address":          {Document: "EN 1", Clause: "https://example.org/en1", Mark: source.Read},
		"not by a web address": {Document: "www.example.org", Mark: source.Official},
		"data sheet board":     {Sheet: "board", Mark: source.Derived},
		"no document":          {Sheet: source.TrapSheet, Document: "EN 1", Mark: source.Derived},
		"is derived":           {Sheet: source.TrapSheet, Mark: source.Read},
	} {
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%+v: %v, want %q", s, err, says)
		}
	}
}

// A year of this century and a month of it.
func TestIsEdition(t *testing.T) {
	for text, want := range map[string]bool{
		"2026-11": true, "2000-01": true, "2099-12": true, "2026-00": false, "2026-13": false, "1999-12": false, "2100-01": false,
		"": false, "2026": false, "2026-1": false, "2026-+1": false, "20x6-11": false, "2026-11-1": false, "11-2026": false,
	} {
		if got := source.IsEdition(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}
