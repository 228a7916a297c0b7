package runs

import (
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// listing is a run of the list of those found.
type listing struct {
	heading message.ID // under which it stands
	run     *search.Alternative
	change  message.Message // that lets it through; zero where none is needed
	stops   []rule.Finding  // what stops it all the same
}

// wayOut is where runs lead out, as people tell ways out apart: through which wall, into which stack, down which pipe.
type wayOut struct {
	kind        job.ExitKind
	wall, stack int
	at          plan.Point
}

// wayOutOf is the one that a run takes.
func wayOutOf(a *search.Alternative) wayOut {
	e := a.Job.Waste.Exit
	switch e.Kind {
	case job.ExitWall:
		return wayOut{kind: e.Kind, wall: e.Wall}
	case job.ExitStack:
		return wayOut{kind: e.Kind, stack: e.Stack}
	}
	return wayOut{kind: e.Kind, at: e.At}
}

// listings are the runs that a search came to, in the order in which they are listed: the best to the stated exit, or what
// would let one through there, the best by each other way out, then the further ones; last what comes nearest to the stated
// exit where none can be built.
func listings(s search.Outcome) (out []listing) {
	var elsewhere, further []listing
	shown, stated := map[wayOut]bool{}, false
	for i := range s.Found {
		switch a := &s.Found[i]; {
		case !a.MovesExit && !stated:
			out, stated = append(out, listing{heading: "run.to-stated-exit", run: a}), true
		case a.MovesExit && !shown[wayOutOf(a)]:
			elsewhere, shown[wayOutOf(a)] = append(elsewhere, listing{heading: "run.another-exit", run: a}), true
		default:
			further = append(further, listing{heading: "run.further", run: a})
		}
	}
	for i := range s.Relaxations {
		r := &s.Relaxations[i]
		out = append(out, listing{heading: "run.with-changes", run: &r.Best, change: r.What})
	}
	out = append(append(out, elsewhere...), further...)
	if h := s.Hindrance; h != nil && h.Nearest != nil {
		out = append(out, listing{heading: "run.nearest", run: h.Nearest, stops: h.Stops})
	}
	return out
}

// title is what a run is listed as.
func (l listing) title(of job.Job) string {
	out := theme.Say(l.run.Job.LeadsTo(), of.Units)
	switch {
	case l.change.IsZero():
		return out
	case l.run.MovesExit:
		return theme.Sentence(l.change, of.Units) + ". " + out
	}
	return theme.Sentence(l.change, of.Units)
}

// does is what laying the run is called: where to, and what tells it from another that leads there.
func (l listing) does() message.Message {
	to := message.Of("run.way", message.In("exit", l.run.Job.LeadsTo()), message.Along("length", l.run.LengthMM), message.Slope("fall", l.run.Gradient))
	if l.change.IsZero() {
		return to
	}
	return message.Of("run.with", message.In("way", to), message.In("change", l.change))
}

// below is what stands under a run: what sets its height, or what stops it, each rule once.
func (l listing) below() message.Message {
	if len(l.stops) == 0 {
		return message.Of("run.height-by", message.In("bound", l.run.Governing.Message()))
	}
	told := map[string]bool{}
	lines := []message.Message{message.Of("run.stopped-by")}
	for _, f := range l.stops {
		if !told[f.Rule.ID] {
			lines = append(lines, message.Of("run.stop", message.In("heading", f.Rule.Heading()), message.In("finding", f.Message())))
		}
		told[f.Rule.ID] = true
	}
	return message.Lines(lines...)
}

// foundNote is what a search came to in few words.
func foundNote(s search.Outcome, of job.Job, stopped bool) message.Message {
	note := message.Of("run.found", message.No("tried", s.Tried), message.N("n", len(s.Found)))
	switch {
	case stopped:
		note = message.Of("run.stopped", message.No("tried", s.Tried), message.N("n", len(s.Found)))
	case len(s.Found) == 0 && len(s.Relaxations) == 0:
		note = message.Of("run.none", message.N("tried", s.Tried))
	case len(s.Found) == 0:
		note = message.Of("run.by-changes", message.N("tried", s.Tried))
	case s.Hindrance != nil:
		note = message.Of("run.found-elsewhere", message.In("exit", of.LeadsTo()), message.No("tried", s.Tried), message.N("n", len(s.Found)))
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

// hindranceMessage says that no run goes where the waste is to go, and what stops most of those
// that were tried there.
func hindranceMessage(h *search.Hindrance, of job.Job) message.Message {
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
