package ways

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// Closed is a way out that was tried and that no run worth choosing goes by.
type Closed struct {
	To job.Exit
	// Said is why, in one line: what breaks and by how much, and what would cure it.
	Said message.Message
	// Edit lays the nearest run with what cures it; Does is what that does. Nothing cures one that has none.
	Edit edit.Edit
	Does message.Message
	// Cured tells that nothing of the run stops the job any more with that.
	Cured bool
}

// mostCures is how many changes are made at most to cure a run. Common practice, no source.
const mostCures = 3

// mostRaiseMM is how high a base comes at most before nobody builds it so: two risers of a stair. Common practice, no source.
const mostRaiseMM = 400

// ClosedOf are the ways out that a search found no run by, those that can be cured first, and of these as the search has them.
func ClosedOf(s search.Outcome, j job.Job, pack rule.Pack) (out []Closed) {
	for i := range s.Closed {
		out = append(out, closedOf(&s.Closed[i], j, pack))
	}
	slices.SortStableFunc(out, func(a, b Closed) int {
		switch {
		case a.Cured == b.Cured:
			return 0
		case a.Cured:
			return -1
		}
		return 1
	})
	return out
}

func closedOf(h *search.Hindrance, j job.Job, pack rule.Pack) Closed {
	c := Closed{To: h.To}
	leads := message.In("exit", leadsTo(j, h.To))
	if h.Nearest == nil {
		c.Said = message.Of("run.no-way-there", leads)
		return c
	}
	c.Edit, c.Does = h.Nearest.Change, Listing{Run: h.Nearest}.Does()
	nearest := geometry.Evaluate(c.Edit.Apply(j), pack)
	stops := stopsIn(nearest)
	if nearest.Heights.RaiseMM() > mostRaiseMM { // what else stops a floor that nobody builds does not matter
		c.Said = message.Of("closed.only-high", leads, up(nearest.Heights.RaiseMM()), message.In("bound", h.Nearest.Governing.Message()))
		return c
	}
	if len(stops) == 0 {
		c.Cured = true
		c.Said = message.Of("closed.beaten", leads, up(nearest.Heights.RaiseMM()))
		return c
	}
	why := message.In("why", whyOf(stops))
	made, now, cured := cure(nearest)
	switch c.Cured = cured && now.Heights.RaiseMM() <= mostRaiseMM; {
	case len(made) == 0:
		c.Said = message.Of("closed.no-cure", leads, why)
		return c
	case cured && !c.Cured:
		c.Said = message.Of("closed.too-high", leads, why, up(now.Heights.RaiseMM()))
		return c
	}
	what := message.List{}
	for n, r := range made {
		c.Edit = edit.All(c.Edit.What, c.Edit, r.Edit)
		does := r.Does
		if len(made) > 1 {
			does = message.Of("closed.step", message.No("n", n+1), message.In("what", does))
		}
		what.Items = append(what.Items, does)
	}
	c.Does = message.Of("run.with", message.In("way", c.Does), message.Arg{Name: "change", Value: what})
	cures := message.Arg{Name: "cure", Value: what}
	if c.Cured {
		c.Said = message.Of("closed.cured", leads, why, cures, up(now.Heights.RaiseMM()))
	} else {
		c.Said = message.Of("closed.cured-in-part", leads, why, cures, message.In("rest", stopsIn(now)[0].Rule.Heading()))
	}
	return c
}

// whyOf is what stops a run, each rule once, those past their limits by most by name.
func whyOf(stops []rule.Finding) message.Message {
	const mostTold = 2
	all := stopsOf(stops)
	out := all[0]
	if len(all) >= mostTold {
		out = message.Of("closed.and", message.In("first", all[0]), message.In("then", all[1]))
	}
	if rest := len(all) - mostTold; rest > 0 {
		out = message.Of("closed.more", message.N("n", rest), message.In("told", out))
	}
	return out
}

// up says how high a base comes, or how deep.
func up(mm float64) message.Arg {
	id := message.ID("closed.up")
	if mm < 0 {
		id = "closed.down"
	}
	return message.In("raise", message.Of(id, message.Arg{Name: "mm", Value: message.Rise{ToMM: mm}}))
}

// leadsTo is where an exit leads.
func leadsTo(j job.Job, to job.Exit) message.Message {
	j.Waste.Exit = to
	return j.LeadsTo()
}

// cure are the remedies, one after the other, of what stops the run of a result, and what it comes to with them; cured tells
// that nothing of it stops the job any more.
func cure(now geometry.Result) (made []fit.Remedy, after geometry.Result, cured bool) {
	for len(made) <= mostCures {
		stops := stopsIn(now)
		if len(stops) == 0 {
			return made, now, len(now.Problems) == 0
		}
		r, _, ok := fit.RemedyOf(now, stops[0])
		if !ok || len(made) == mostCures {
			break
		}
		made, now = append(made, r), r.After
	}
	return made, now, false
}

// stopsIn are what stops the run of a result, the gravest first.
func stopsIn(r geometry.Result) (out []rule.Finding) {
	for _, f := range r.Findings {
		if search.StopsRun(&f.Rule) {
			out = append(out, f)
		}
	}
	return out
}
