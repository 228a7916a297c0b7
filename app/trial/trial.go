// Package trial is the room of the window where a change is tried before it is made: the job before and after it
// beside each other, what it changes, what must be looked at, and the other ways there are. A trial is a change laid
// over the job as it is now; nothing of the job is another until it is kept.
package trial

import (
	"context"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// Way is one way that can be tried.
type Way struct {
	// Does says what is done; the step of the history that keeping it makes is called so.
	Does message.Message
	Edit edit.Edit
	// Cut is the section that shows it.
	Cut section.Cutting
	// Ends is the finding that it is to end; the zero one for none.
	Ends rule.Finding
}

// Trial is what is tried, among the ways there are.
type Trial struct {
	// Along is the way that the section runs which was being read; zero for none.
	Along plan.Point
	Ways  []Way
	At    int // which is tried
	// Seen is what has been seen of what is not known since the trial began: tried along.
	Seen []edit.Edit
}

// way is the one that is tried.
func (t Trial) way() Way { return t.Ways[t.At] }

// change is the edit that keeping the trial makes.
func (t Trial) change() edit.Edit {
	w := t.way()
	if len(t.Seen) == 0 {
		return w.Edit.Called(w.Does)
	}
	return edit.All(w.Does, append([]edit.Edit{w.Edit}, t.Seen...)...)
}

// Asks are what a trial asks of the window.
type Asks struct {
	// Try works out what an edit would make of the job; the desk tells why it is refused.
	Try func(edit.Edit) (desk.Tried, job.Problems)
	// Result is the latest result.
	Result func() geometry.Result
	// Keep makes the edit.
	Keep func(edit.Edit)
	// Opened is told when a trial is shown, Ended when none is any more: why where it was not put back by hand or
	// kept, what stays as long as the job is so.
	Opened func()
	Ended  func(why message.Message)
	// Shown is told what is tried, with its answer as far as that is known, and at which stations of the work it
	// states something else; nil for nobody.
	Shown func(tried geometry.Result, a geometry.Answer, at []job.Station)
	// Look shows what is worth looking at, and hands over what was seen.
	Look func(seen func(edit.Edit)) Look
	// OnWindow runs a function on the window's goroutine.
	OnWindow func(func())
}

// Look is a card of what is worth looking at first.
type Look interface {
	fyne.CanvasObject
	Tell(x *unknown.Exploration, u unit.System)
}

// Part is how a fault in a trial is told.
const Part message.ID = "fault.trial"

// Room shows a trial while one runs. All of it is for the window's goroutine.
type Room struct {
	asks  Asks
	keys  *control.Keys
	theme *theme.Theme
	guard *guard.Guard
	*view
	trial  Trial
	tried  desk.Tried
	sides  [2]side // before and after
	home   int     // the side that the cut of both is one of
	shown  bool    // a trial is shown; else one may be about to be
	serial int     // of trials, so that what comes late is left out
	cancel context.CancelFunc
}

// New makes the room, with no trial running; the painter is for it alone.
func New(asks Asks, keys *control.Keys, t *theme.Theme, painter *paint.Painter, g *guard.Guard) *Room {
	r := &Room{asks: asks, keys: keys, theme: t, guard: g, cancel: func() {}}
	r.view = newView(r, painter)
	return r
}

// Running tells whether a trial is shown.
func (r *Room) Running() bool { return r.shown }

// Trial is the one that is shown.
func (r *Room) Trial() Trial { return r.trial }

// Open tries a way. It is shown as soon as it is known what comes of it; an edit that is refused is not, nor one of
// which no floor comes, and the job stays as it was.
func (r *Room) Open(t Trial) {
	tried, problems := r.asks.Try(t.change())
	if len(problems) > 0 {
		r.end(message.Message{})
		return
	}
	r.serial++
	r.cancel()
	r.trial, r.tried = t, tried
	r.work()
}

// Follow ends the trial where the job is no longer the one that it was tried on.
func (r *Room) Follow(c desk.Change) {
	if r.tried.Job.Version == 0 {
		return
	}
	if why, since := c.Since(r.tried); since {
		r.end(message.Of("trial.ended", message.In("does", r.trial.way().Does), message.In("why", message.Of(why))))
	}
}

// PutBack ends the trial: the job is as it was all the time.
func (r *Room) PutBack() { r.end(message.Message{}) }

// PutBackFor ends the trial for something else, and says so.
func (r *Room) PutBackFor(why message.ID) {
	if r.shown {
		r.end(message.Of("trial.ended", message.In("does", r.trial.way().Does), message.In("why", message.Of(why))))
	}
}

// Stop drops the trial with the window: nothing is shown of it any more.
func (r *Room) Stop() {
	r.serial++
	r.cancel()
	r.shown = false
}

// Keep makes the change, as one step of the history.
func (r *Room) Keep() {
	if !r.shown {
		return
	}
	change := r.trial.change()
	r.end(message.Message{})
	r.asks.Keep(change)
}

// end shows no trial any more.
func (r *Room) end(why message.Message) {
	r.serial++
	r.cancel()
	was := r.shown || !why.IsZero()
	r.shown, r.tried, r.trial, r.sides = false, desk.Tried{}, Trial{}, [2]side{}
	r.view.Hold(false)
	if was {
		r.asks.Ended(why)
	}
}

// other tries another of the ways; what was seen stays seen.
func (r *Room) other(at int) {
	if at < 0 || at >= len(r.trial.Ways) || at == r.trial.At {
		return
	}
	t := r.trial
	t.At = at
	r.Open(t)
}

// seen takes what was seen into the trial.
func (r *Room) seen(e edit.Edit) {
	t := r.trial
	t.Seen = append(append([]edit.Edit{}, t.Seen...), e)
	r.Open(t)
}

// others are the ways that are not tried, by their index, in the order of their keys.
func (r *Room) others() (out []int) {
	for i := range r.trial.Ways {
		if i != r.trial.At {
			out = append(out, i)
		}
	}
	return out
}

// Key does what a key stands for while a trial is shown; it tells whether it stands for anything.
func (r *Room) Key(k fyne.KeyName) bool {
	if !r.shown {
		return false
	}
	switch k {
	case fyne.KeyEscape:
		r.PutBack()
		return true
	case fyne.KeyReturn, fyne.KeyEnter:
		r.Keep()
		return true
	case fyne.KeySpace:
		return true // held down it shows the job before
	}
	if len(k) == 1 && k[0] >= '1' && k[0] <= '9' {
		if others, n := r.others(), int(k[0]-'1'); n < len(others) {
			r.other(others[n])
		}
		return true
	}
	return false
}

// Restyle shows the same in another look.
func (r *Room) Restyle() {
	if r.shown {
		r.view.fill()
		r.view.repaint()
	}
}
