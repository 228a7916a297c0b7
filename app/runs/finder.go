// Package runs is the search for other ways for the waste: it lists what was found, with a small plan of
// each, and what stops those to the exit as stated.
package runs

import (
	"context"
	"image"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/section"
	"underfall/geometry/ways"
)

// Asks are what the search asks of the window.
type Asks struct {
	Job    func() job.Job       // as it stands
	Opened func() int           // how many jobs have been on the desk
	Packs  map[string]rule.Pack // by country
	Shelf  part.Shelf           // what may stand in for the job's parts
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
	start    *control.Press
	progress *widget.ProgressBar
	note     *control.Text
	list     *fyne.Container
	why      *control.Fold  // what cannot be built, and why
	group    *control.Group // of all to press in the list
	scroll   *control.Scroller
	cancel   context.CancelFunc
	old      *widget.Label // says that the job has changed since
	serial   int           // of searches, so that a late one is left out
	// opened tells which job was searched, searched how it stood then.
	opened   int
	searched job.Job
	now      *ways.Raised // how high the base of that lies
	uses     []use
	ways     []Way // of the uses, in their order
}

// New makes one; the painter is for it alone.
func New(asks Asks, keys *control.Keys, t *theme.Theme, painter *paint.Painter, g *guard.Guard) *Finder {
	p := &Finder{asks: asks, keys: keys, theme: t, painter: painter, guard: g, progress: widget.NewProgressBar(), old: control.NewMessage(),
		note: control.NewWrapped(theme.Word("run.hint")).Styled(theme.TextSecond, false, theme.Ink),
		list: container.New(control.Column{Gap: theme.Space2})}
	p.scroll = control.NewScroller(container.New(layout.NewCustomPaddedLayout(0, 0, 0, theme.Space1), p.list))
	p.why = control.NewFold(keys, p.scroll.Refresh)
	p.progress.Hide()
	p.start = control.NewFilled(keys, theme.Word("app.find-runs"), p.toggle)
	return p
}

// Object is what is shown of it.
func (p *Finder) Object() fyne.CanvasObject {
	head := container.New(control.Column{Gap: theme.Space2}, p.start, p.progress, p.note, p.old, control.NewRule())
	return container.NewBorder(head, nil, nil, nil, p.scroll)
}

// Begin starts a search unless one goes on, or what was found is of the job as it is.
func (p *Finder) Begin() {
	if p.cancel == nil && (len(p.list.Objects) == 0 || p.isOld(p.asks.Job())) {
		p.toggle()
	}
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
	p.start.Set(theme.Word("app.stop-2"), false)
	p.progress.SetValue(0)
	p.progress.Show()
	p.clear()
	p.old.Hide()
	// What is told of this job after now is no reason to end the search.
	p.opened = p.asks.Opened()
	j := p.asks.Job()
	pack := p.asks.Packs[j.Region]
	// The theme may change while the search goes on.
	style := p.theme.PaintStyle(1, j.Units, "")
	style.Unit = message.Message{} // there are no numbers on them
	p.searched, p.uses, p.ways = j, nil, nil
	var s search.Outcome
	var closed []ways.Closed
	var err error
	var pictures []image.Image
	var now *ways.Raised
	stopped := false
	p.guard.Run(PartSearch, func() {
		defer cancel()
		s, err = ways.Look(ctx, j, pack, p.asks.Shelf, func(share float64) {
			p.asks.OnWindow(func() {
				if p.serial == serial && share > p.progress.Value {
					p.progress.SetValue(share)
				}
			})
		})
		stopped = ctx.Err() != nil
		guard.Raise(err)
		closed = ways.ClosedOf(s, j, pack)
		now = ways.RaisedOf(geometry.Evaluate(j, pack))
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
			p.now = now
			p.show(s, closed, j, pictures, stopped)
			p.markOld()
		})
	})
}

// rest makes ready for another search.
func (p *Finder) rest() {
	p.cancel = nil
	p.start.Set(theme.Word("app.find-runs"), false)
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
	p.clear()
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
		u.button.Set(label, p.isOld(now))
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
	all := ways.Listings(s)
	for _, l := range all[:min(mostPictures, len(all))] {
		r := geometry.Evaluate(l.Run.Job, pack)
		img := image.NewRGBA(image.Rect(0, 0, width, height))
		if len(r.Problems) == 0 {
			d := section.PlanOf(r).Bare()
			p.painter.Draw(img, d, paint.Fit(d.Low, d.High, width, height, 0.2), style)
		}
		out = append(out, img)
	}
	return out
}
