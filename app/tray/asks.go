// Package tray is the room of the window with the fields of a job, one station of the work at
// a time. It gets values and hands on what is asked of the job through functions it is given.
package tray

import (
	"math"

	"fyne.io/fyne/v2"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Asks is what fields need: the job as it is, and what they ask for.
type Asks struct {
	Job func() job.Job
	// Outside is what an edit may need beside the job.
	Outside func() edit.Outside
	// Do makes an edit of the job, or says why not. Live does so for one that is made over and
	// over, which is one step of the history by its key.
	Do   func(edit.Edit) job.Problems
	Live func(key string, e edit.Edit) job.Problems
	// Preview shows what an edit would give; EndPreview no longer.
	Preview    func(edit.Edit) job.Problems
	EndPreview func()
	// Aimed is the level to build to at an input that takes one as built, by its key; NaN where there is none.
	Aimed func(key string) float64
	// Try tries other parts of the shelf for an input; nil where nothing is tried.
	Try func(job.Input)
}

// Row is a field, or several that belong together, under a heading of their own.
type Row interface {
	Object() fyne.CanvasObject
	// Refresh follows the job.
	Refresh(job.Job)
	// There tells whether the field is there for the job it shows.
	There() bool
	// key is the input's, empty where it has none.
	key() string
}

// refusal is the first reason why an edit was refused, or nil. Under the field that
// is concerned it needs no place, nor does one that is a whole sentence.
func refusal(p job.Problems, field string) error {
	switch {
	case len(p) == 0:
		return nil
	case p[0].Key == field || p[0].Key == "":
		return &message.Error{What: p[0].What}
	}
	return p[0]
}

// nan is no number.
func nan() float64 { return math.NaN() }

// visible shows a widget or hides it.
func visible(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
