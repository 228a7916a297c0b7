package app

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/drawing"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// follow brings every view to the desk's state.
func (w *mainWindow) follow(c desk.Change) {
	select {
	case <-w.sight.Closed: // nothing is begun again
		return
	default:
	}
	if c.Awaited && !c.Stale { // nothing is shown of one job in another
		return
	}
	w.change = c
	r := c.Result
	fit := w.replaced && len(r.Problems) == 0
	if len(r.Problems) == 0 {
		w.replaced = false
		w.sight.KeepInRoom(r)
		followMark(&w.sight.State, r, c.Preview) // which pictures and drawings show
		// The plan is drawn while the panels are filled; what is drawn beside it would have to wait for a processor, or they.
		w.setPlan(r, fit)
		defer func() {
			if c.Preview && !fit {
				w.setOthersIn(r)
			} else {
				w.setOthers(r, fit)
			}
		}()
		w.showCut()
	}
	w.trial.Follow(c)
	w.panelsSoon()
	if c.Edits > 0 && !c.Preview {
		select {
		case w.keepSoon <- struct{}{}:
		default:
		}
	}
	if w.showroom != nil {
		w.showroom.Build()
	}
	control.Enable(w.undo, !c.Undo.IsZero())
	control.Enable(w.redo, !c.Redo.IsZero())
	w.jobLine.show(c, w.desk.Job())
	w.putInRow(w.frame.arrangement.roomAlone)
	if w.askLarge.Visible() && c.Opened != w.askedAt {
		w.askLarge.Tell("", false)
		w.answer.Refill()
	}
	w.showLooking(c)
	w.setTitle()
	w.beforeStep.follow(c)
	w.sayOutcome(c)
	hint := theme.Word("app.shown-while-you-type-leaving-the")
	if c.Preview {
		w.read(hint)
	} else if w.status.Text == hint || fit {
		w.read("")
	}
	w.log("job %q base top %.2f tile %.2f stops %d problems %d unsaved %v undo %v", r.Settled.Name,
		r.Heights.BaseTopMM, r.Heights.TileMM, stops(r), len(c.Problems), c.Unsaved, !c.Undo.IsZero())
}

// sayOutcome says what has become of a change.
func (w *mainWindow) sayOutcome(c desk.Change) {
	r, u := c.Result, c.Result.Settled.Units
	switch {
	case c.Stale:
		w.say(w.faults.said(), true)
	case w.stillSaved(c):
		w.saySaved(c.File)
	case c.Refused != nil:
		offers := make([]answer.Offer, 0, len(c.Refused.Cures)+1)
		for _, cure := range c.Refused.Cures {
			offers = append(offers, answer.Offer{Text: theme.Say(cure.What, u), Do: w.guard.Wrap(partChange, func() { w.desk.Do(cure.Edit) })})
		}
		offers = append(offers, answer.Offer{Text: theme.Word("app.dismiss"), Do: w.guard.Wrap(partChange, w.desk.Dismiss)})
		w.sentence(theme.Say(c.Refused.What, u), true, offers...)
	case len(c.Problems) > 0:
		w.say(notChanged(c.Problems[0], w.desk.Job().Units), true)
	case len(r.Problems) > 0:
		w.say(theme.Sentence(r.Problems[0].Message(), u), true)
	case w.understood.of(c):
		w.sentence(strings.TrimSpace(movedAlong(c.Told(), u)+" "+w.understood.said), false, w.understood.offers...)
	case len(c.Moved) > 0 && c.Preview:
		w.say(movedAlong(c.Told(), u), false)
	case len(c.Moved) > 0:
		all := append([]message.Message{message.Of("desk.what-changed", message.In("edit", c.Undo))}, c.Told()...)
		all = append(all, w.beforeStep.told()...)
		w.sentence(movedAlong(all, u), false, answer.Offer{Text: theme.Word("tool.undo"), Do: w.guard.Wrap(partChange, w.undoLast)})
	case w.refused != nil && w.refused.Opened == c.Opened && w.refused.Edits == c.Edits:
	case c.Preview || w.lineTaken(c) != "":
		w.say(w.lineTaken(c), false)
	default:
		w.say(movedAlong(w.beforeStep.told(), u), false)
	}
}

// understood is how what was typed in a field that has gone was understood, with what it was probably meant as to press.
type understood struct {
	opened, edits int // the change that it made
	said          string
	offers        []answer.Offer
}

// of tells whether a change is the one it made; none is that of nothing.
func (o *understood) of(c desk.Change) bool {
	return o != nil && !c.Preview && o.opened == c.Opened && o.edits == c.Edits
}

// lineTaken says of the first reading, which is no known point, how high it has the line be; nothing of another change.
func (w *mainWindow) lineTaken(c desk.Change) string {
	l := &c.Result.Stated.Laser
	lineMM, taken := l.TakenLineMM()
	if c.Preview || !taken || len(l.Readings) > 1 || c.Undo.ID != edit.ReadDown {
		return ""
	}
	return theme.Say(message.Of("laser.line-taken", message.MM("line", lineMM)), c.Result.Settled.Units)
}

// notChanged says why nothing was changed. A problem with no place in the job's file is a whole sentence.
func notChanged(p job.Problem, u unit.System) string {
	if p.Key == "" {
		return theme.Say(p.What, u)
	}
	return theme.Say(message.Of("desk.not-changed", message.In("problem", p.Message())), u)
}

// movedAlong says what moved along with a change, a sentence a thing.
func movedAlong(told []message.Message, u unit.System) string {
	said := make([]string, len(told))
	for i, m := range told {
		said[i] = theme.Say(m, u)
	}
	return strings.Join(said, " ")
}

// stops counts the findings that stop the work.
func stops(r geometry.Result) int {
	n := 0
	for _, f := range r.Findings {
		if f.Rule.Severity == rule.Stop {
			n++
		}
	}
	return n
}

// panelsPace is how the panels beside the pictures follow: when they last did, and
// whether they are about to.
type panelsPace struct {
	at   time.Time
	due  bool
	wait func()    // stops that; nil for nothing
	job  panelsJob // the one whose fields were shown last
}

// panelsJob tells a job from others: which one it is of those opened, and the edits made to it.
type panelsJob struct{ opened, edits int }

// panelsEvery is how often the panels beside the pictures follow a drag: faster
// than that nobody reads them, and the pictures need the time.
const panelsEvery = 150 * time.Millisecond

// panelsSoon brings the panels to the latest state: at once, or when they have
// just been, a little later.
func (w *mainWindow) panelsSoon() {
	if w.pace.due {
		return
	}
	wait := panelsEvery - time.Since(w.pace.at)
	if wait <= 0 {
		w.showPanels()
		return
	}
	w.pace.due = true
	w.pace.wait = w.sight.After(wait, partChange, w.showPanels)
}

func (w *mainWindow) showPanels() {
	w.pace.at, w.pace.due = time.Now(), false
	r := w.change.Result
	held := w.view.Holds() || slices.ContainsFunc(w.drawn(), (*drawing.View).Holds)
	if len(r.Problems) == 0 {
		w.answer.Of(w.change.Opened)
		w.answer.Show(r)
		w.levels.Show(r, w.answer.Answer())
		w.rods.show(r)
		w.water.Show(r)
		w.checks.Show(r)
		for _, f := range w.followers {
			if held { // the drag needs the time
				f.hold(r)
			} else {
				f.follow(r)
			}
		}
	}
	if of := (panelsJob{w.change.Opened, w.change.Edits}); !w.change.Preview || of != w.pace.job { // a preview changes no job
		w.pace.job = of
		j := w.desk.Job()
		if !held || w.sides.at == sideFields { // else it is shown once it is let go
			w.tray.Show(j)
		}
		w.tag.refresh(j)
		w.cuts.figure.refresh(j)
		w.jobPanel.show(j, r.Pack, w.change.Undo)
		w.runs.Follow(w.change.Opened)
	}
	w.settleLayout()
}

// settleLayout lays anew out what has become of another size. Fyne does so as well when it paints, but what it moves then
// has it paint all once more.
func (w *mainWindow) settleLayout() {
	if c, ok := w.window.Canvas().(interface{ EnsureMinSize() bool }); ok {
		c.EnsureMinSize()
	}
}

// statusLines are the lines under everything.
type statusLines struct {
	status     *widget.Label   // what the pointer is on
	teller     *answer.Teller  // what has become of the last change
	keepNotice *widget.Label   // as long as unsaved work is not kept
	askLarge   *answer.Teller  // once, whether all is to be large
	askedAt    int             // how many jobs had been opened then
	trialTold  *answer.Teller  // why the last trial ended by itself
	stills     *fyne.Container // pictures that are being drawn
	told       *fyne.Container // all of these
	saidAwhile func()          // stops what has the last sentence go by itself; nil for nothing
}

func newStatusLines(keys *control.Keys) statusLines {
	l := statusLines{
		status: widget.NewLabel(""), teller: answer.NewTeller(keys), askLarge: answer.NewTeller(keys),
		trialTold: answer.NewTeller(keys), keepNotice: paragraph(""), stills: container.NewVBox(),
	}
	l.keepNotice.Importance = widget.DangerImportance
	l.keepNotice.Hide()
	l.stills.Hide()
	l.status.Truncation = fyne.TextTruncateEllipsis
	return l
}

// read puts what the pointer is on, or what is to be done now, into the line for it.
func (w *mainWindow) read(s string) { write(w.status, s) }

// write has a label say something; one that says so already is not painted again.
func write(l *widget.Label, s string) {
	if l.Text != s {
		l.SetText(s)
	}
}

// refuse says why something that was asked for was not done and changed nothing. It stays until it is dismissed or the job is
// changed: a result that comes late, of what was shown while something was typed, does not take it away.
func (w *mainWindow) refuse(why string, offers ...answer.Offer) {
	w.sentence(why, true, append(offers, answer.Offer{Text: theme.Word("app.dismiss"), Do: w.dismiss})...)
	at := w.change
	w.refused = &at
}

// dismiss takes away what is said.
func (w *mainWindow) dismiss() { w.say("", false) }

// sentence puts one with what is offered where what has become of a change is told, in the place of what is said.
func (w *mainWindow) sentence(s string, bad bool, offers ...answer.Offer) {
	w.refused = nil
	if w.saidAwhile != nil {
		w.saidAwhile()
	}
	w.teller.Tell(s, bad, offers...)
}

// say puts a sentence where what has become of a change is told.
func (w *mainWindow) say(s string, bad bool) { w.sentence(s, bad) }

// saidFor is how long something is said that is soon of no more interest. Common practice, no source.
const saidFor = 12 * time.Second

// sayFor says something that goes by itself after a while, unless something else has been said by then.
func (w *mainWindow) sayFor(wait time.Duration, s string) {
	w.say(s, false)
	w.saidAwhile = w.sight.After(wait, partWindow, func() {
		if w.teller.Text() == s {
			w.say("", false)
		}
	})
}
