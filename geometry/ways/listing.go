package ways

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// Listing is a run of the list of those found.
type Listing struct {
	Heading message.ID // under which it stands
	Run     *search.Alternative
	Change  message.Message // that lets it through, or lets the base come lower; zero where none is needed
	Stops   []rule.Finding  // what stops it all the same
	// LowerMM is what a change that costs little gains; 0 where it is what lets the run through.
	LowerMM float64
	cheap   bool
}

// Listings are the runs that a search came to, in the order in which they are listed: the best to the stated exit, what costs little
// and gains height or lets one through there, what costs more, the best by each other way out, then the further ones; last what comes
// nearest to the stated exit where none can be built.
func Listings(s search.Outcome) (out []Listing) {
	var elsewhere, further []Listing
	shown, stated := map[search.WayOut]bool{}, false
	for _, a := range s.Distinct() {
		switch way := search.WayOutOf(a.Job.Waste.Exit); {
		case !a.MovesExit && !stated:
			out, stated = append(out, Listing{Heading: "run.to-stated-exit", Run: a}), true
		case a.MovesExit && !shown[way]:
			elsewhere, shown[way] = append(elsewhere, Listing{Heading: "run.another-exit", Run: a}), true
		default:
			further = append(further, Listing{Heading: "run.further", Run: a})
		}
	}
	for i := range s.Cheap {
		c := &s.Cheap[i]
		out = append(out, Listing{Heading: "run.cheap", Run: &c.Best, Change: c.What, LowerMM: c.GainMM, cheap: true})
	}
	for i := range s.Relaxations {
		r := &s.Relaxations[i]
		out = append(out, Listing{Heading: "run.with-changes", Run: &r.Best, Change: r.What})
	}
	out = append(append(out, elsewhere...), further...)
	if h := s.Hindrance; h != nil && h.Nearest != nil {
		out = append(out, Listing{Heading: "run.nearest", Run: h.Nearest, Stops: h.Stops})
	}
	return out
}

// Title is what a run is listed as, a sentence each: what is changed for it, where it leads.
func (l Listing) Title() []message.Message {
	out := l.Run.Job.LeadsTo()
	switch {
	case l.Change.IsZero():
		return []message.Message{out}
	case l.cheap && l.LowerMM > 0:
		return []message.Message{message.Of("cheap.gains", message.In("change", l.Change), message.MM("lower", l.LowerMM))}
	case l.cheap:
		return []message.Message{message.Of("cheap.lets-through", message.In("change", l.Change)), out}
	case l.Run.MovesExit:
		return []message.Message{l.Change, out}
	}
	return []message.Message{l.Change}
}

// Does is what laying the run is called: where to, and what tells it from another that leads there.
func (l Listing) Does() message.Message {
	to := message.Of("run.way", message.In("exit", l.Run.Job.LeadsTo()),
		message.Along("length", l.Run.LengthMM), message.Slope("fall", l.Run.Gradient))
	if l.Change.IsZero() {
		return to
	}
	return message.Of("run.with", message.In("way", to), message.In("change", l.Change))
}

// Below is what stands under a run: what sets its height, or what stops it, each rule once.
func (l Listing) Below() message.Message {
	if len(l.Stops) == 0 {
		return message.Of("run.height-by", message.In("bound", l.Run.Governing.Message()))
	}
	return message.Lines(append([]message.Message{message.Of("run.stopped-by")}, stopsOf(l.Stops)...)...)
}

// stopsOf are what stops a run, each rule once.
func stopsOf(stops []rule.Finding) (out []message.Message) {
	told := map[string]bool{}
	for _, f := range stops {
		if !told[f.Rule.ID] {
			out = append(out, message.Of("run.stop", message.In("heading", f.Rule.Heading()), message.In("finding", f.Message())))
		}
		told[f.Rule.ID] = true
	}
	return out
}

// FoundNote is what a search came to in few words.
func FoundNote(s search.Outcome, of job.Job, stopped bool) message.Message {
	tried, told := message.No("tried", s.Tried), message.N("n", len(s.Distinct()))
	note := message.Of("run.found", tried, told)
	switch {
	case stopped:
		note = message.Of("run.stopped", tried, told)
	case len(s.Found) == 0 && len(s.Relaxations) == 0:
		note = message.Of("run.none", message.N("tried", s.Tried))
	case len(s.Found) == 0:
		note = message.Of("run.by-changes", message.N("tried", s.Tried))
	case s.Hindrance != nil:
		note = message.Of("run.found-elsewhere", message.In("exit", of.LeadsTo()), tried, told)
	}
	if h := s.Hindrance; h != nil && len(h.By) > 0 {
		reason := message.Of("run.first-hinder", message.In("heading", h.By[0].Rule.Heading()))
		if len(s.Found) == 0 { // the note ends with what leads on to the list
			note = message.Lines(reason, note)
		} else {
			note = message.Lines(note, reason)
		}
	}
	for _, f := range s.Besides {
		note = message.Lines(note, message.Of("run.besides", message.In("finding", f.Rule.Heading())))
	}
	return note
}

// HindranceMessage says that no run goes where the waste is to go, and what stops most of those
// that were tried there.
func HindranceMessage(h *search.Hindrance, of job.Job) message.Message {
	exit := message.In("exit", of.LeadsTo())
	if h.Tried == 0 {
		return message.Of("run.no-way-there", exit)
	}
	const mostTold = 3
	var by []message.Message
	for _, b := range h.By[:min(mostTold, len(h.By))] {
		by = append(by, message.Of("run.hinder", message.In("heading", b.Rule.Heading()), message.No("n", b.Runs)))
	}
	return message.Of("run.none-there", exit, message.N("tried", h.Tried), message.Arg{Name: "by", Value: message.List{Items: by}})
}
