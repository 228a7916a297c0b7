package runs

import (
	"image"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/search"
)

// use is the button that tries a change of the job, and what it says while the job is another.
type use struct {
	button *control.Press
	change edit.Edit
	label  string
}

// show lists what was found, each with a picture and a button that tries it; what cannot be built as it stands comes
// last, folded away with what stops it.
func (p *Finder) show(s search.Outcome, of job.Job, pictures []image.Image, stopped bool) {
	p.clear()
	p.uses, p.ways = nil, nil
	p.note.SetText(theme.Say(foundNote(s, of, stopped), of.Units))
	p.group = &control.Group{}
	into := p.list
	if h := s.Hindrance; h != nil {
		p.why.SetText(theme.Word("run.why-none"))
		p.why.Box.Add(control.NewWrapped(theme.Say(hindranceMessage(h, of), of.Units)).Styled(theme.TextSecond, false, theme.Ink))
	}
	var last message.ID
	for i, l := range listings(s) {
		if len(l.stops) > 0 {
			into = p.why.Box
		}
		if l.heading != last {
			into.Add(control.NewWrapped(theme.Word(l.heading)).Styled(theme.TextField, true, theme.Ink))
		}
		last = l.heading
		var picture image.Image
		if i < len(pictures) {
			picture = pictures[i]
		}
		into.Add(p.card(l, of, picture))
	}
	if s.Hindrance != nil {
		p.list.Add(p.why.Object())
		p.group.Add(p.why.Head)
	}
	p.scroll.Refresh()
}

// clear lists nothing.
func (p *Finder) clear() {
	p.list.RemoveAll()
	p.why.Box.RemoveAll()
	p.why.Open(false)
	p.scroll.ScrollTo(0)
	p.scroll.Refresh()
}

// card is a run of the list, with its picture if there is one and a button that tries it.
func (p *Finder) card(l listing, of job.Job, picture image.Image) fyne.CanvasObject {
	at := len(p.uses)
	u := use{change: l.run.Change, label: theme.Word("trial.try")}
	u.button = control.NewPress(p.keys, u.label, func() { p.asks.Try(p.ways, at) })
	u.button.Small = true
	p.group.Add(u.button)
	p.uses, p.ways = append(p.uses, u), append(p.ways, Way{l.does(), u.change})
	small := func(s string, r theme.Role) *control.Text {
		return control.NewWrapped(s).Styled(theme.TextCaption, false, r)
	}
	title := control.NewWrapped(l.title(of)).Styled(theme.TextBody, true, theme.Ink)
	head := container.NewBorder(nil, nil, nil, container.NewVBox(u.button), title)
	box := container.New(control.Column{Gap: theme.Space1}, head)
	if picture != nil {
		drawn := canvas.NewImageFromImage(picture)
		drawn.FillMode = canvas.ImageFillContain
		drawn.SetMinSize(fyne.NewSize(150, 94))
		box.Add(drawn)
	}
	box.Add(small(runDetail(*l.run, of, p.now), theme.Ink))
	box.Add(small(theme.Bare(l.below(), of.Units), theme.Caption))
	card := control.NewCard(box)
	card.Pad = theme.Space2
	return card
}

// raised is between which levels the base of the job that was searched comes: the structural floor's highest and its own.
type raised struct{ floorMM, topMM float64 }

// raisedOf is that of a result; nil of one that could not be worked out.
func raisedOf(r geometry.Result) *raised {
	if len(r.Problems) > 0 {
		return nil
	}
	return &raised{r.Heights.FloorHighMM, r.Heights.BaseTopMM}
}

// asked says what a found run asks for: how high the base, beside what it is now, the pipe, and of what is counted that
// of which there is any.
func asked(a search.Alternative, now *raised) []message.Message {
	raise := message.Rise{ToMM: a.RaiseMM}
	if now != nil {
		raise = message.Rise{FromMM: now.floorMM, ToMM: now.floorMM + a.RaiseMM} // as the answer tells it
	}
	id := message.ID("run.base-up")
	if a.RaiseMM < 0 {
		id = "run.base-down"
	}
	out := []message.Message{message.Of(id, message.Arg{Name: "raise", Value: raise})}
	if now != nil {
		out = append(out, against(raise.ToMM, now.topMM))
	}
	if a.EdgeStepMM > plan.HairMM {
		out = append(out, message.Of("run.step", message.MM("step", a.EdgeStepMM)))
	}
	out = append(out, message.Of("run.pipe", message.Along("length", a.LengthMM), message.Slope("fall", a.Gradient)))
	for _, of := range []struct {
		id message.ID
		n  int
	}{{"run.bends", a.Bends}, {"run.joists", a.JoistsCut}, {"run.advice", a.Advisories}} {
		if of.n > 0 {
			out = append(out, message.Of(of.id, message.N("n", of.n)))
		}
	}
	return out
}

// sameHeightMM is within what two heights are told as the same: half of the whole millimetre that heights are told in.
const sameHeightMM = 0.5

// against says how high a top is beside that of now; so that it adds up with both of them as they are told.
func against(topMM, nowMM float64) message.Message {
	rise := message.Arg{Name: "mm", Value: message.Rise{FromMM: nowMM, ToMM: topMM}}
	switch {
	case math.Abs(topMM-nowMM) < sameHeightMM:
		return message.Of("run.as-high")
	case topMM < nowMM:
		return message.Of("run.lower", rise)
	}
	return message.Of("run.higher", rise)
}

// runDetail says in a line what a found run asks for, how that is beside the job that was searched, and where it differs
// from that.
func runDetail(a search.Alternative, of job.Job, now *raised) string {
	parts := append(asked(a, now), message.Of("run.leaves-at", message.At("level", a.ExitInvertMM)))
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
		texts = append(texts, theme.Bare(m, of.Units))
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
