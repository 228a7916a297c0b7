// Package runs is the search for other ways for the waste: it lists what was found, with a small plan of
// each, and what stops those to the exit as stated.
package runs

import (
	"context"
	"image"
	"math"
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/section"
)

// Asks are what the search asks of the window.
type Asks struct {
	Job    func() job.Job       // as it stands
	Opened func() int           // how many jobs have been on the desk
	Packs  map[string]rule.Pack // by country
	// Try tries one of the runs that were found before it is laid.
	Try func(all []Way, at int)
	// OnWindow runs a function on the window's goroutine.
	OnWindow func(func())
}

// Way is a run that was found: what is done, and the change that does it.
type Way struct {
	Does message.Message
	Edit edit.Edit
}

// Finder looks for waste runs and has the chosen one tried.
type Finder struct {
	asks     Asks
	keys     *control.Keys
	theme    *theme.Theme
	painter  *paint.Painter
	guard    *guard.Guard
	start    *control.ToolButton
	progress *widget.ProgressBar
	note     *widget.Label
	list     *fyne.Container
	cancel   context.CancelFunc
	old      *widget.Label // says that the job has changed since
	serial   int           // of searches, so that a late one is left out
	// opened tells which job was searched, searched how it stood then.
	opened   int
	searched job.Job
	uses     []use
	ways     []Way // of the uses, in their order
}

// exitSpacingMM is how close exits are tried along outside walls.
const exitSpacingMM = 150

// New makes one; the painter is for it alone.
func New(asks Asks, keys *control.Keys, t *theme.Theme, painter *paint.Painter, g *guard.Guard) *Finder {
	p := &Finder{asks: asks, keys: keys, theme: t, painter: painter, guard: g,
		progress: widget.NewProgressBar(), note: widget.NewLabel(""), old: control.NewMessage(), list: container.NewVBox()}
	p.note.Wrapping = fyne.TextWrapWord
	p.note.SetText(theme.Word("run.hint"))
	p.progress.Hide()
	p.start = control.NewButton(keys, theme.Word("app.find-runs"), p.toggle)
	p.start.Importance = widget.HighImportance
	return p
}

// Object is what is shown of it.
func (p *Finder) Object() fyne.CanvasObject {
	return container.NewBorder(container.NewVBox(p.start, p.progress, p.note, p.old), nil, nil, nil, container.NewVScroll(p.list))
}

// toggle starts a search, or ends the one that goes on.
func (p *Finder) toggle() {
	if p.cancel != nil {
		p.cancel()
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	p.cancel = cancel
	p.serial++
	serial := p.serial
	p.start.SetText(theme.Word("app.stop-2"))
	p.progress.SetValue(0)
	p.progress.Show()
	p.list.RemoveAll()
	p.old.Hide()
	// What is told of this job after now is no reason to end the search.
	p.opened = p.asks.Opened()
	j := p.asks.Job()
	pack := p.asks.Packs[j.Region]
	// The theme may change while the search goes on.
	style := p.theme.PaintStyle(1, j.Units, "")
	p.searched, p.uses, p.ways = j, nil, nil
	var s search.Outcome
	var err error
	var pictures []image.Image
	stopped := false
	p.guard.Run(PartSearch, func() {
		defer cancel()
		grid := search.UsualGrid()
		grid.TrapsMM = search.TrapPlaces(j)
		s, err = search.Runs(ctx, j, pack, search.UsualExits(j, exitSpacingMM), grid, func(share float64) {
			p.asks.OnWindow(func() {
				if p.serial == serial && share > p.progress.Value {
					p.progress.SetValue(share)
				}
			})
		})
		stopped = ctx.Err() != nil
		guard.Raise(err)
		pictures = p.pictures(s, pack, style)
	}, func(sound bool) {
		p.asks.OnWindow(func() {
			if p.serial != serial {
				return
			}
			p.rest()
			if !sound {
				p.note.SetText(theme.Word("app.the-search-was-ended-by-a"))
				return
			}
			if err != nil {
				p.note.SetText(theme.Say(message.Of("run.refused", message.In("why", message.OfError(err))), j.Units))
				return
			}
			p.show(s, j, pictures, stopped)
			p.markOld()
		})
	})
}

// rest makes ready for another search.
func (p *Finder) rest() {
	p.cancel = nil
	p.start.SetText(theme.Word("app.find-runs"))
	p.progress.Hide()
}

// Follow keeps the list to the job it was made for: another job, the count of those opened tells,
// ends a search and clears the list, an edit marks it as old.
func (p *Finder) Follow(opened int) {
	if p.opened == opened {
		p.markOld()
		return
	}
	p.opened = opened
	p.serial++
	p.Stop()
	p.rest()
	p.list.RemoveAll()
	p.list.Refresh()
	p.old.Hide()
	p.note.SetText(theme.Word("run.hint"))
}

// markOld says when the job is no longer what was searched but for the way of
// its waste, and marks the way that is in use.
func (p *Finder) markOld() {
	now := p.asks.Job()
	for _, u := range p.uses {
		label := u.label
		if reflect.DeepEqual(u.change.Apply(now), now) {
			label = theme.Word("app.in-use")
		}
		if u.button.Text != label {
			u.button.SetText(label)
		}
		control.Enable(u.button, !p.isOld(now))
	}
	if len(p.list.Objects) == 0 || !p.isOld(now) {
		p.old.Hide()
		return
	}
	p.old.SetText(theme.Word("app.found-before-the-job-was-last"))
	p.old.Show()
}

// isOld tells whether a job is no longer the one that was searched, but for the way of its waste, what it is
// called and the units it is told in: what was found is void then.
func (p *Finder) isOld(now job.Job) bool {
	now = edit.UseRun(edit.RunOf(p.searched)).Apply(now)
	now.Name, now.Notes, now.Units = p.searched.Name, p.searched.Notes, p.searched.Units
	return !reflect.DeepEqual(now, p.searched)
}

// use is the button that tries a change of the job, and what it says while the job is another.
type use struct {
	button *control.ToolButton
	change edit.Edit
	label  string
}

// Stop ends a search that goes on.
func (p *Finder) Stop() {
	if p.cancel != nil {
		p.cancel()
	}
}

// PartSearch is how a fault in the search is told.
const PartSearch message.ID = "fault.search"

// mostPictures is how many runs are drawn; beyond, nobody compares.
const mostPictures = 12

// pictures are small plans of the runs that are listed, in their order.
func (p *Finder) pictures(s search.Outcome, pack rule.Pack, style paint.Style) []image.Image {
	const width, height = 240, 150
	var out []image.Image
	all := listings(s)
	for _, l := range all[:min(mostPictures, len(all))] {
		r := geometry.Evaluate(l.run.Job, pack)
		img := image.NewRGBA(image.Rect(0, 0, width, height))
		if len(r.Problems) == 0 {
			d := section.PlanOf(r).Bare()
			p.painter.Draw(img, d, paint.Fit(d.Low, d.High, width, height, 0.2), style)
		}
		out = append(out, img)
	}
	return out
}

// show lists what was found, each with a picture and a button that puts it
// into the job.
func (p *Finder) show(s search.Outcome, of job.Job, pictures []image.Image, stopped bool) {
	p.list.RemoveAll()
	p.uses, p.ways = nil, nil
	p.note.SetText(theme.Say(foundNote(s, of, stopped), of.Units))
	heading := func(id message.ID) {
		p.list.Add(widget.NewLabelWithStyle(theme.Word(id), fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	}
	if s.Hindrance != nil {
		heading("run.to-stated-exit")
		says := widget.NewLabel(theme.Say(hindranceMessage(s.Hindrance, of), of.Units))
		says.Wrapping = fyne.TextWrapWord
		p.list.Add(says)
	}
	var last message.ID
	for i, l := range listings(s) {
		if l.heading != last && l.heading != "" {
			heading(l.heading)
		}
		last = l.heading
		var picture image.Image
		if i < len(pictures) {
			picture = pictures[i]
		}
		p.add(l, of, picture)
	}
	p.list.Refresh()
}

// add puts a run into the list, with its picture if there is one and a button that lays it.
func (p *Finder) add(l listing, of job.Job, picture image.Image) {
	label := widget.NewRichText(
		&widget.TextSegment{Text: l.title(of), Style: widget.RichTextStyle{TextStyle: fyne.TextStyle{Bold: true}}},
		&widget.TextSegment{Text: runDetail(*l.run, of), Style: widget.RichTextStyleParagraph},
		&widget.TextSegment{Style: widget.RichTextStyleParagraph, Text: theme.Say(l.below(), of.Units)})
	label.Wrapping = fyne.TextWrapWord
	at := len(p.uses)
	u := use{change: l.run.Change, label: theme.Word("trial.try")}
	u.button = control.NewButton(p.keys, u.label, func() { p.asks.Try(p.ways, at) })
	p.uses, p.ways = append(p.uses, u), append(p.ways, Way{l.does(), u.change})
	if picture == nil {
		p.list.Add(container.NewBorder(nil, widget.NewSeparator(), nil, container.NewCenter(u.button), label))
		return
	}
	drawn := canvas.NewImageFromImage(picture)
	drawn.FillMode = canvas.ImageFillContain
	drawn.SetMinSize(fyne.NewSize(150, 94))
	above := container.NewBorder(nil, nil, nil, container.NewCenter(u.button), drawn)
	p.list.Add(container.NewBorder(nil, widget.NewSeparator(), nil, nil, container.NewVBox(above, label)))
}

// runDetail says in a line what a found run asks for and where it differs from
// the job that was searched.
func runDetail(a search.Alternative, of job.Job) string {
	parts := []message.Message{
		message.Of("run.detail", message.MM("raise", a.RaiseMM), message.MM("step", a.EdgeStepMM),
			message.Along("length", a.LengthMM), message.Slope("fall", a.Gradient),
			message.No("bends", a.Bends), message.No("joists", a.JoistsCut), message.No("advice", a.Advisories)),
		message.Of("run.leaves-at", message.At("level", a.ExitInvertMM)),
	}
	if stated, ok := of.Waste.Exit.Level.InvertMM(); ok && a.Job.Waste.Exit.Level.Kind() == job.ExitFree {
		parts = append(parts, message.Of("run.level-not-held", message.At("level", stated)))
	}
	if at := a.Job.Drain.TrapOffsetMM; at != of.Drain.TrapOffsetMM {
		parts = append(parts, trapPlace(at, of.Former.Fall))
	}
	for _, f := range a.Job.Waste.Fittings {
		if f.Kind != job.FittingFallingPiece {
			parts = append(parts, message.Of("run.reducer", message.Nominal("size", f.NominalMM)))
		} else {
			parts = append(parts, message.Of("run.falling-piece", message.Slope("fall", f.Slope)))
		}
	}
	var texts []string
	for _, m := range parts {
		texts = append(texts, theme.Say(m, of.Units))
	}
	return strings.Join(texts, " · ")
}

// trapPlace is a trap's place along its drain, as seen facing the back wall.
func trapPlace(offsetMM float64, fall job.FallKind) message.Message {
	far := message.Along("far", math.Abs(offsetMM))
	switch {
	case offsetMM == 0:
		return message.Of("run.trap-in-middle")
	case fall.Sideways() && offsetMM > 0:
		return message.Of("run.trap-to-front", far)
	case fall.Sideways():
		return message.Of("run.trap-to-back", far)
	case offsetMM > 0:
		return message.Of("run.trap-to-right", far)
	}
	return message.Of("run.trap-to-left", far)
}
