package settle

import (
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// named is what a thing is called, at the start of a sentence or within one.
func (s *settler) named(t string, start bool) message.Message {
	if l, i, _, ok := job.InList(t); ok && l.Most > 1 {
		return s.namedOfList(l, i, start)
	}
	pick := func(first, within message.ID) message.Message {
		if start {
			return message.Of(first)
		}
		return message.Of(within)
	}
	switch {
	case t == showerKey:
		return pick("the.shower.first", "the.shower")
	case t == "shower.head":
		return pick("the.head.first", "the.head")
	case t == "drain":
		return pick("the.drain.first", "the.drain")
	case t == "base":
		return pick("the.base.first", "the.base")
	case t == "former":
		return pick("the.former.first", "the.former")
	case t == "waste.exit":
		return pick("the.exit.first", "the.exit")
	case t == "waste.vent":
		return pick("the.vent.first", "the.vent")
	case t == "waste.pump":
		return pick("the.pump.first", "the.pump")
	case t == "waste.waypoints":
		return pick("the.turns.first", "the.turns")
	case t == "waste":
		return pick("the.pipe.first", "the.pipe")
	case t == "floor.joists":
		return pick("the.joists.first", "the.joists")
	}
	return s.job.PlaceOf(t)
}

// namedOfList is what a thing of a list is called: by its number where there are others like it.
func (s *settler) namedOfList(l job.List, i int, start bool) message.Message {
	n := message.No("n", i+1)
	several := l.Count(&s.job) > 1
	pick := func(first, within, firstOf, withinOf message.ID) message.Message {
		switch {
		case start && several:
			return message.Of(firstOf, n)
		case several:
			return message.Of(withinOf, n)
		case start:
			return message.Of(first)
		}
		return message.Of(within)
	}
	switch l.Key {
	case job.DoorwaysKey:
		return pick("the.door.first", "the.door", "the.door-n.first", "the.door-n")
	case windowsKey:
		return pick("the.window.first", "the.window", "the.window-n.first", "the.window-n")
	case job.StacksKey:
		return pick("the.stack.first", "the.stack", "the.stack-n.first", "the.stack-n")
	case job.PipeEndsKey:
		return pick("the.pipe-end.first", "the.pipe-end", "the.pipe-end-n.first", "the.pipe-end-n")
	case "shower.screens":
		return pick("the.screen.first", "the.screen", "the.screen-n.first", "the.screen-n")
	case fixturesKey:
		return s.namedFixture(i, several, start)
	}
	return l.Item(&s.job, i)
}

// namedFixture is what a fixture is called: by what it is where it is the only one.
func (s *settler) namedFixture(i int, several, start bool) message.Message {
	if several || i >= len(s.job.Room.Fixtures) {
		if start {
			return message.Of("the.fixture-n.first", message.No("n", i+1))
		}
		return message.Of("the.fixture-n", message.No("n", i+1))
	}
	names := map[job.FixtureKind][2]message.ID{
		job.FixtureBasin:    {"the.basin.first", "the.basin"},
		job.FixtureToilet:   {"the.toilet.first", "the.toilet"},
		job.FixtureRadiator: {"the.radiator.first", "the.radiator"},
		job.FixtureCupboard: {"the.cupboard.first", "the.cupboard"},
	}[s.job.Room.Fixtures[i].Kind]
	if start {
		return message.Of(names[0])
	}
	return message.Of(names[1])
}

// itemOf is the thing of a list that a path leads into; empty for none.
func itemOf(key string) string {
	if _, _, entry, ok := job.InList(key); ok {
		return strings.TrimSuffix(strings.TrimSuffix(key, entry), ".")
	}
	return ""
}
