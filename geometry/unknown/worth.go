package unknown

import (
	"cmp"
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Worth is what knowing an input takes away of what is open. Of an input that was paired with the
// others it is the mean over its values, each as likely as another: how much less far apart the cases
// lie that have the value. Of one that was tried alone it is how far apart its own values bring the
// job. It is never less than nothing, nor more than all there is.
type Worth struct {
	// MM is of the step at the way in, of cases that can be built.
	MM float64
	// Built is the share of its values that settle whether the job can be built at all, Standing
	// that settle how it stands; 0 where that is not open.
	Built, Standing float64
}

// Matters tells whether knowing it changes anything that anybody would notice.
func (w Worth) Matters() bool { return w.Built > 0 || w.Standing > 0 || w.MM > geometry.SameStepMM }

// compare tells which is worth more, above zero for the first: what settles whether it can be built
// comes before millimetres, and these before how it stands.
func (w Worth) compare(o Worth) int {
	noticed := func(w Worth) float64 {
		if w.MM > geometry.SameStepMM {
			return w.MM
		}
		return 0
	}
	return cmp.Or(cmp.Compare(w.Built, o.Built), cmp.Compare(noticed(w), noticed(o)),
		cmp.Compare(w.Standing, o.Standing), cmp.Compare(w.MM, o.MM))
}

// Message says what it is worth.
func (w Worth) Message() message.Message {
	mm := message.MM("mm", w.MM)
	switch {
	case w.Built > 0 && w.MM > geometry.SameStepMM:
		return message.Of("worth.built-and-mm", mm)
	case w.Built > 0:
		return message.Of("worth.built")
	case w.Standing > 0:
		return message.Of("worth.standing", mm)
	}
	return message.Of("worth.mm", mm)
}

// open is what cases leave open: how far their steps lie apart, and whether some can be built and
// others not, or they stand otherwise.
type open struct{ mm, built, standing float64 }

// openOf is what is open among the cases that are taken. Steps are of those that can be built; of
// all where none of the whole can.
func (x *Exploration) openOf(take func(i int) bool) open {
	steps, any := nowhere(), x.anyBuilt()
	built, n := 0, 0
	standings := map[geometry.Standing]bool{}
	for i := range x.Cases {
		if !take(i) {
			continue
		}
		c := &x.Cases[i]
		n++
		standings[c.Answer.Standing] = true
		if c.canBe() {
			built++
		}
		if s, ok := c.Answer.WayIn(); ok && (c.canBe() || !any) {
			steps.take(s.MM)
		}
	}
	return open{steps.SpreadMM(), flag(built > 0 && built < n), flag(len(standings) > 1)}
}

// worth is what closing it all is worth.
func (o open) worth() Worth { return Worth{o.mm, o.built, o.standing} }

func flag(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

func (x *Exploration) anyBuilt() bool {
	for i := range x.Cases {
		if x.Cases[i].canBe() {
			return true
		}
	}
	return false
}

// measure says from where to where step and raise come.
func (x *Exploration) measure() {
	any := x.anyBuilt()
	for i := range x.Cases {
		c := &x.Cases[i]
		if !c.canBe() && any || len(c.Result.Problems) > 0 {
			continue
		}
		x.Raise.take(c.Answer.RaiseMM())
		if s, ok := c.Answer.WayIn(); ok {
			x.Step.take(s.MM)
		}
	}
	for _, r := range []*Range{&x.Step, &x.Raise} {
		if r.LeastMM > r.GreatestMM {
			*r = Range{}
		}
	}
}

// worth works out what knowing each of the unknowns is worth.
func (x *Exploration) worth(t tree) {
	paired := len(t.leaves)
	leafOf := func(i int) leaf {
		if i < paired {
			return t.leaves[i]
		}
		return t.alone[i-paired]
	}
	all := x.openOf(func(i int) bool { return i < paired })
	for d := range x.Unknowns {
		u := &x.Unknowns[d]
		if u.Alone {
			u.Worth = x.openAround(d, t).worth()
			continue
		}
		var left open
		for _, v := range u.Values {
			of := x.openOf(func(i int) bool {
				l := leafOf(i)
				return i < paired && (l.is[d] == unused || l.ids[d] == v.ID)
			})
			n := float64(len(u.Values))
			left = open{left.mm + of.mm/n, left.built + of.built/n, left.standing + of.standing/n}
		}
		if len(u.Values) > 0 {
			u.Worth = Worth{clean(all.mm - left.mm), clean(all.built - left.built), clean(all.standing - left.standing)}
		}
	}
}

// clean is a difference without what rounding leaves.
func clean(v float64) float64 {
	const rounding = 1e-9
	if v < rounding {
		return 0
	}
	return v
}

// openAround is what the values of an unknown that was tried alone leave open.
func (x *Exploration) openAround(d int, t tree) open {
	from := unused
	for _, l := range t.alone {
		if l.of == d {
			from = l.from
		}
	}
	return x.openOf(func(i int) bool { return i == from || i >= len(t.leaves) && t.alone[i-len(t.leaves)].of == d })
}

// assume says what knowing what is assumed is worth, by the cases that its other values came to.
func (x *Exploration) assume(stated *job.Job, dims []dimension, leaves []leaf, cases []Case) {
	first := len(cases) - len(leaves)
	var best letIn
	for d, dim := range dims {
		u := Unknown{Key: dim.key, What: dim.what, Alone: true}
		var beside Exploration
		for k, l := range leaves {
			if l.of != d {
				continue
			}
			if len(beside.Cases) == 0 {
				base := x.Cases[l.from]
				beside.Cases = []Case{base}
				id := dim.choices(&base.Job)[0].id
				u.Values = []Value{{d, id, dim.say(id, &base.Result), dim.way(stated, id, &base.Job)}}
			}
			c, id := cases[first+k], l.ids[0]
			beside.Cases = append(beside.Cases, c)
			u.Values = append(u.Values, Value{d, id, dim.say(id, &c.Result), dim.way(stated, id, &c.Job)})
		}
		if len(beside.Cases) > 0 {
			u.Worth = beside.openOf(func(int) bool { return true }).worth()
			x.Assumed = append(x.Assumed, u)
			best = best.lower(u, beside.Cases)
		}
	}
	if timber(stated) && stated.StandingOf(supportKey).Open() {
		x.letIn = best.message(&x.Cases[0])
	}
}

// SpreadMM is how far apart the steps of the cases lie, in whole millimetres.
func (x *Exploration) SpreadMM() float64 { return math.Round(x.Step.SpreadMM()) }
