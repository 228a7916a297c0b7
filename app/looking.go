package app

import (
	"context"
	"errors"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// askedEvery is how often the window looks whether another asks for its file, answerWithin how long it
// waits itself for another to let go: time enough to be looked for several times.
const (
	askedEvery   = time.Second
	answerWithin = 6 * time.Second
)

// handOver gives the job's file to another window that asks for it, while this one lives.
func (w *mainWindow) handOver() {
	w.guard.Go(partKeeping, func() {
		tick := time.NewTicker(askedEvery)
		defer tick.Stop()
		for {
			select {
			case <-w.sight.Closed:
				return
			case <-tick.C:
				w.guard.Do(partKeeping, nil, w.desk.HandOver)
			}
		}
	})
}

// lookLine says in the top bar that the job is only looked at, and why, with what can be done about it;
// or that it cannot be told whether another window has its file.
type lookLine struct {
	says  *control.Text
	press *control.Press // takes the file over, or says what was not understood of it
	box   *fyne.Container
	what  *desk.Looking
}

// lookWide is how wide the sentence is: two lines of it go into the least window beside the rest.
const lookWide = 250

func (w *mainWindow) newLookLine() lookLine {
	l := lookLine{says: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Tight), press: control.NewPress(w.keys, "", nil)}
	l.press.OnPressed = w.guard.Wrap(partWindow, func() {
		if w.looking.what.Elsewhere {
			w.takeOver()
		} else {
			w.tellUnread()
		}
	})
	l.box = container.New(lookPlaces{}, l.says, l.press)
	l.box.Hide()
	return l
}

// lookPlaces sets the sentence, in the middle of the height, and the press after it; the sentence wraps
// where there is no room for it in one line.
type lookPlaces struct{}

// Layout places them.
func (lookPlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	says, press := o[0], o[1]
	wide, pressed := min(s.Width, lookWide), press.MinSize()
	if press.Visible() {
		wide = min(wide, s.Width-pressed.Width-theme.Space2)
	}
	says.Resize(fyne.NewSize(max(wide, 0), s.Height)) // which tells how high it is
	high := says.MinSize().Height
	says.Resize(fyne.NewSize(max(wide, 0), high))
	says.Move(fyne.NewPos(0, max((s.Height-high)/2, 0)))
	press.Resize(pressed)
	press.Move(fyne.NewPos(wide+theme.Space2, (s.Height-pressed.Height)/2))
}

// MinSize is that of two lines and the press.
func (lookPlaces) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !o[1].Visible() {
		return fyne.NewSize(lookWide, o[0].MinSize().Height)
	}
	press := o[1].MinSize()
	return fyne.NewSize(lookWide+theme.Space2+press.Width, press.Height)
}

// show follows the desk.
func (l *lookLine) show(c desk.Change) {
	l.what = c.Looking
	switch {
	case c.Looking != nil:
		l.says.SetText(theme.Say(message.Of("app.only-looked-at", message.In("why", c.Looking.Why)), unit.Metric))
	case c.Unsure != nil:
		l.says.SetText(theme.Word("app.unsure-of-others"))
	default:
		l.box.Hide()
		return
	}
	switch {
	case c.Looking == nil || !c.Looking.Elsewhere && len(c.Looking.Unread) == 0:
		l.press.Hide()
	case c.Looking.Elsewhere:
		l.press.Set(theme.Word("app.take-over-here"), l.press.Off)
		l.press.Show()
	default:
		l.press.Set(theme.Word("app.not-understood", message.N("n", len(c.Looking.Unread))), false)
		l.press.Show()
	}
	l.box.Show()
	l.box.Refresh()
}

// showLooking follows the desk: what a job that is only looked at has no use for makes room for why that is.
func (w *mainWindow) showLooking(c desk.Change) {
	w.looking.show(c)
	for _, o := range []fyne.CanvasObject{w.jobLine.saved, w.undo, w.redo} {
		if c.Looking != nil {
			o.Hide()
		} else {
			o.Show()
		}
	}
}

// takeOver takes the job's file from the window that has it, or says why not.
func (w *mainWindow) takeOver() {
	w.looking.press.Set(w.looking.press.Text, true)
	w.guard.Run(partKeeping, func() {
		ctx, cancel := context.WithTimeout(context.Background(), answerWithin)
		defer cancel()
		err := w.desk.TakeOver(ctx)
		w.sight.Do(func() {
			if err != nil {
				w.log("not taken over: %v", err)
				w.fail(err)
				return
			}
			w.log("taken over")
			w.keep() // which lets go of work given up
		})
	}, func(bool) {
		w.sight.Do(func() { w.looking.press.Set(w.looking.press.Text, false) })
	})
}

// tellUnread says what was not understood of a file that a later version of Underfall wrote.
func (w *mainWindow) tellUnread() {
	l := w.looking.what
	const most = 12
	var lines []string
	for _, m := range l.Unread[:min(len(l.Unread), most)] {
		lines = append(lines, theme.Say(m, w.desk.Job().Units))
	}
	if more := len(l.Unread) - most; more > 0 {
		lines = append(lines, theme.Word("kept.and-more", message.N("n", more)))
	}
	w.ask(theme.Word("app.not-understood", message.N("n", len(l.Unread))), theme.Word("app.not-understood-about")+"\n\n"+strings.Join(lines, "\n"),
		reply{theme.Word("app.close"), widget.HighImportance, func() {}})
}

// inTheWay tells whether nothing was saved because the file is looked at, has been taken over or is
// another's: another name serves.
func inTheWay(err error) bool {
	return errors.Is(err, desk.ErrLookedAt) || errors.Is(err, desk.ErrNewerFile) || errors.Is(err, store.ErrElsewhere)
}
