//go:build unix

package app

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"underfall/app/store"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// Parts are written to a table and taken in from one: what is new is at hand at once, also for new jobs,
// and counted as the user's own; a file that is none says so and changes nothing.
func TestPartsInAndOut(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	w.openParts()
	before := w.parts.Count()
	if got := shown(w); !strings.Contains(got, "0 of them your own") || !strings.Contains(got, "[Take in from a file]") {
		t.Errorf("it says %s", got)
	}
	tap(t, w, "Write all to a file")
	folder := t.TempDir()
	w.saving.goTo(folder)
	w.saving.save.OnTapped()
	settle(t)
	table := filepath.Join(folder, "parts.csv")
	if got := shown(w); !strings.Contains(got, "parts are in "+table) || w.saving != nil {
		t.Errorf("written, it says %s", got)
	}
	tap(t, w, "Close")
	nameless := filepath.Join(folder, "nameless.csv")
	writeFile(t, nameless, "garbage\x00", 0o644)
	w.takePartsIn(nameless)
	if w.parts.Count() != before || w.question == nil {
		t.Errorf("garbage is taken in: %s", shown(w))
	}
	tap(t, w, "Close")

	own := filepath.Join(folder, "own.csv")
	writeFile(t, own, blueTile, 0o644)
	w.takePartsIn(own)
	if got := shown(w); !strings.Contains(got, "1 part of "+own+" is new or changed") || w.parts.Count() != before+1 || w.parts.Find(part.KindTile, "blue") == nil {
		t.Errorf("taken in, it says %s; %d parts", got, w.parts.Count())
	}
	tap(t, w, "Close")
	w.openParts()
	if got := shown(w); !strings.Contains(got, "1 of them your own") {
		t.Errorf("then it says %s", got)
	}
	tap(t, w, "Close")
	if w.start.front == nil {
		t.Error("the page is gone")
	}
}

// blueTile is a table of one part of the user's own.
const blueTile = `kind,id,field,value
shelf,,version,1
tile,blue,called,Blue tile
tile,blue,regions[0],UK
tile,blue,source.mark,common-practice
tile,blue,thicknessMM,8
tile,blue,toleranceMM,0.5
tile,blue,lengthMM,197
tile,blue,widthMM,197
tile,blue,jointMM,3
`

// Who works in inches sees the examples in inches, and opens them so.
func TestExamplesInInches(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	about := func() (all string) {
		for _, e := range w.start.examples() {
			all += e.About + "\n"
		}
		return all
	}
	until(t, "the examples", func() bool { return strings.Contains(about(), "Step ") })
	if !strings.Contains(about(), "mm") || strings.Contains(about(), "\u2033") {
		t.Errorf("in millimetres: %s", about())
	}
	sheet := w.start.blank()
	sheet.Units = unit.Imperial
	w.start.keep(sheet)
	if got := about(); strings.Contains(got, "mm") {
		t.Errorf("in inches: %s", got)
	}
	w.begin(w.start.exampleJob(w.demos[0]))
	if u := w.desk.Job().Units; u != unit.Imperial || w.demos[0].Job.Units == unit.Imperial {
		t.Errorf("opened in %s", u)
	}
}

// The latest jobs are worked out by themselves, the rest when all are asked for.
func TestAllJobsAreWorkedOutWhenAsked(t *testing.T) {
	folder := t.TempDir()
	path := jobFile(t, func(map[string]any) {})
	for i := range latestRows + 3 {
		to := filepath.Join(t.TempDir(), "job.json")
		writeFile(t, to, readFile(t, path), 0o644)
		if err := store.List(folder, store.Listed{Path: to, Name: "Job", At: time.Now().Add(-time.Duration(i) * time.Hour)}); err != nil {
			t.Fatal(err)
		}
	}
	w, _ := openWindow(t, Options{StartPage: true, ConfigFolder: folder})
	worked := func() (n int) {
		for _, j := range w.start.jobs {
			if j.Summary != nil {
				n++
			}
		}
		return n
	}
	until(t, "the latest", func() bool { return worked() == latestRows && len(w.start.heads) > 0 })
	if len(w.start.jobs) != latestRows+3 || worked() != latestRows {
		t.Errorf("%d jobs, %d worked out", len(w.start.jobs), worked())
	}
	w.start.listAll()
	w.start.listAll()
	until(t, "all", func() bool { return worked() == latestRows+3 })
}
