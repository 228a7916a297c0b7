package settle

import (
	"cmp"
	"math"
	"reflect"
	"slices"
	"strings"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// mostCures is how many cures are offered.
const mostCures = 2

// refusal says why a change is not made, with what would let it be.
func (s *settler) refusal(problems job.Problems) *Refusal {
	r := &Refusal{Edit: s.edit, Problems: problems}
	fits, ok := s.nearestFigure()
	released := s.releases()
	if ok {
		f, _ := s.edit.Figure()
		e := f.With(fits)
		e.What = s.edit.What
		r.Cures = append(r.Cures, Cure{message.Of("cure.make-it", valueArg("value", fits, f.Kind)), e})
	}
	for _, c := range released {
		if len(r.Cures) < mostCures {
			r.Cures = append(r.Cures, c.Cure)
		}
	}
	if c, ok := s.withoutTape(problems); ok && len(r.Cures) < mostCures {
		r.Cures = append(r.Cures, c)
	}
	if len(r.Cures) < mostCures {
		if c, ok := s.otherWall(); ok {
			r.Cures = append(r.Cures, c)
		}
	}
	r.What = s.why(problems, fits, ok, released)
	return r
}

// withoutTape is the change in a room whose corners are no longer worked out from what was measured of it, where that
// was in the way.
func (s *settler) withoutTape(problems job.Problems) (c Cure, ok bool) {
	if !s.before.Room.Measured() || !slices.ContainsFunc(problems, func(p job.Problem) bool { return p.What.ID == job.CornersAreMeasured }) {
		return c, false
	}
	e := edit.All(s.edit.What, edit.PutTapeAside(), s.edit)
	_, ok = s.settles(e, s.held)
	return Cure{message.Of("cure.without-tape"), e}, ok
}

func valueArg(name string, v float64, kind unit.Kind) message.Arg {
	return message.Arg{Name: name, Value: unit.Value(v, kind)}
}

// settles tells whether another change in the place of the refused one does, with what is held.
func (s *settler) settles(e edit.Edit, held func(string) bool) (*settler, bool) {
	other, problems := settledFrom(s.before, s.earlier, e, held)
	return other, len(problems) == 0 && len(differing(s.before, &other.job)) > 0
}

// nearestFigure is the value nearest to the one that was typed, towards the one there was, that does.
func (s *settler) nearestFigure() (v float64, ok bool) {
	f, is := s.edit.Figure()
	if !is || !f.Kind.IsLength() || math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
		return 0, false
	}
	was, had := f.Of(*s.before)
	if !had {
		return 0, false
	}
	step := stepMM(s.job.Units)
	at := func(n float64) float64 { return n * step }
	does := func(n float64) bool {
		_, ok := s.settles(f.With(at(n)), s.held)
		return ok
	}
	// From the value there was, which does, to the one typed, which does not.
	good, bad := math.Ceil(was/step-plan.HairMM), math.Floor(f.Value/step)
	if f.Value < was {
		good, bad = math.Floor(was/step+plan.HairMM), math.Ceil(f.Value/step)
	}
	from, found := good, false
	for math.Abs(good-bad) > 0.5 {
		middle := math.Round((good + bad) / 2)
		if middle == good || middle == bad {
			break
		}
		if does(middle) {
			good, found = middle, true
		} else {
			bad = middle
		}
	}
	if !found && bad != from && math.Abs(f.Value-at(bad)) > plan.HairMM && does(bad) {
		good, found = bad, true
	}
	return at(good), found
}

// release is a cure that lets something held move, by how much, and the thing.
type release struct {
	Cure
	thing string
	keys  []string // of what is held of it and would move
	byMM  float64
}

// releases are the cures that let one thing that is held move, the least movement first.
func (s *settler) releases() (out []release) {
	of := map[string][]string{}
	var things []string
	for _, key := range s.before.Standing(job.Held) {
		if s.stated(key) {
			continue
		}
		t := thingOf(key)
		if of[t] == nil {
			things = append(things, t)
		}
		of[t] = append(of[t], key)
	}
	for _, t := range things {
		held := func(key string) bool { return s.held(key) && !within(key, t) }
		other, ok := s.settles(s.edit, held)
		if !ok {
			continue
		}
		if c, ok := s.releaseOf(t, other); ok {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b release) int { return cmp.Compare(a.byMM, b.byMM) })
	return out
}

// releaseOf is the cure by which a thing moves as it does in a job that was settled without it being held.
func (s *settler) releaseOf(t string, other *settler) (c release, ok bool) {
	var keys []string
	for _, key := range differing(s.before, &other.job) {
		if within(key, t) && !s.stated(key) {
			keys = append(keys, key)
		}
	}
	if len(keys) == 0 {
		return c, false
	}
	to := other.job
	move := edit.Of(s.edit.What, func(j *job.Job) {
		for _, key := range keys {
			carry(j, &to, key)
		}
	}).About(keys...)
	c = release{thing: t, keys: slices.DeleteFunc(slices.Clone(keys), func(key string) bool { return !s.held(key) })}
	c.Edit = edit.All(s.edit.What, s.edit, move)
	if _, about := s.edit.Subject(); !about {
		c.Edit = c.Edit.About(append(slices.Clone(s.states), keys...)...)
	}
	if _, ok := s.settles(c.Edit, s.held); !ok {
		return c, false
	}
	thing := message.In("thing", s.named(t, false))
	c.What = message.Of("cure.change", thing)
	for _, key := range keys {
		was, _ := at(s.before, key)
		is, _ := at(&to, key)
		if was.Kind() != reflect.Float64 {
			continue
		}
		by := math.Abs(is.Float() - was.Float())
		c.byMM += by
		if c.What.ID == "cure.change" || strings.HasSuffix(key, ".offsetMM") {
			c.What = other.cureOf(key, thing, by, is.Float())
		}
	}
	return c, true
}

// cureOf says what a cure does to one number of a thing.
func (s *settler) cureOf(key string, thing message.Arg, byMM, v float64) message.Message {
	value := message.Arg{Name: "value", Value: numberOf(key, v)}
	switch name := key[strings.LastIndexByte(key, '.')+1:]; {
	case name == "offsetMM":
		return message.Of("cure.move", thing, message.Along("by", byMM))
	case name == "widthMM":
		return message.Of("cure.make-wide", thing, value)
	case name == "lengthMM":
		return message.Of("cure.make-long", thing, value)
	case key == "shower.depthMM":
		return message.Of("cure.make-deep", thing, value)
	}
	if said, ok := valueOf(&s.job, key); ok {
		return message.Of("cure.set", message.In("what", s.entryName(key)), message.Arg{Name: "value", Value: said})
	}
	return message.Of("cure.change", thing)
}

// otherWall is a cure by which a shower that is too large for its wall stands at another.
func (s *settler) otherWall() (c Cure, ok bool) {
	if !s.changed("shower.widthMM", "shower.depthMM") || !s.free("shower.wall", "shower.offsetMM") || !s.sound() {
		return c, false
	}
	walls := make([]int, len(s.job.Room.Outline))
	for i := range walls {
		walls[i] = i
	}
	long := func(i int) float64 { return -s.job.Room.WallLengthMM(i) }
	slices.SortStableFunc(walls, func(a, b int) int { return cmp.Compare(long(a), long(b)) })
	for _, wall := range walls {
		if wall == s.before.Shower.Wall {
			continue
		}
		there := edit.Of(s.edit.What, func(j *job.Job) { j.Shower.Wall, j.Shower.OffsetMM = wall, 0 }).About("shower.wall", "shower.offsetMM")
		e := edit.All(s.edit.What, s.edit, there)
		if other, does := s.settles(e, s.held); does && other.job.Shower.DepthMM == other.applied.Shower.DepthMM {
			return Cure{message.Of("cure.at-wall", s.job.Room.Wall("wall", wall)), e}, true
		}
	}
	return c, false
}
