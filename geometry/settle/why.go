package settle

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// why says why a change is refused, in one or two sentences.
func (s *settler) why(problems job.Problems, fits float64, fitting bool, released []release) message.Message {
	there := func(id, more message.ID, args ...message.Arg) message.Message {
		if fitting {
			figure, _ := s.edit.Figure() // that fits, so there is one
			return message.Of(more, append(args, message.Arg{Name: "there", Value: whole(unit.Value(math.Abs(fits), figure.Kind), 1)})...)
		}
		return message.Of(id, args...)
	}
	about := problems[0].Key
	sh := &s.applied.Shower
	switch {
	case s.wayRoundShort(problems[0]):
		figure, _ := s.edit.Figure()
		return message.Of("refused.way-round", message.In("what", s.job.PlaceOf(figure.Key)),
			message.Arg{Name: "value", Value: unit.Value(figure.Value, figure.Kind)}, message.In("other", s.job.PlaceOf(about)))
	case !s.sound():
	case s.about("shower.widthMM") && s.showerWrong(about):
		one, other := s.besideShower()
		return there("refused.shower-wide", "refused.shower-wide-there", message.Along("width", sh.WidthMM),
			message.In("one", one), message.In("other", other))
	case s.about("shower.offsetMM") && s.showerWrong(about):
		return there("refused.shower-at", "refused.shower-at-there", message.Along("width", sh.WidthMM), message.Along("at", sh.OffsetMM),
			message.AtCorner("corner", s.job.Room.Corner(sh.Wall)))
	case s.about("shower.depthMM") && s.showerWrong(about):
		return there("refused.shower-deep", "refused.shower-deep-there", message.Along("depth", sh.DepthMM), s.job.Room.Wall("wall", sh.Wall))
	case s.tooLong(about):
		return s.whyTooLong(about)
	case about == showerKey && s.about("room.outline") && len(released) == 0:
		return message.Of("refused.shower-room", message.Along("width", sh.WidthMM), message.Along("depth", sh.DepthMM))
	case about == "waste.exit.offsetMM":
		e := &s.applied.Waste.Exit
		return message.Of("refused.exit", message.Along("at", e.OffsetMM), message.AtCorner("corner", s.job.Room.Corner(e.Wall)),
			s.job.Room.Wall("wall", e.Wall), message.Along("length", s.applied.Room.WallLengthMM(e.Wall)))
	case about == "drain.offsetMM" && (s.about("drain.lengthMM") || s.about("drain.offsetMM")):
		d := &s.applied.Drain
		if s.about("drain.lengthMM") {
			return there("refused.drain-long", "refused.drain-long-there", message.MM("length", d.LengthMM))
		}
		return there("refused.drain-off", "refused.drain-off-there", message.MM("length", s.applied.DrainLengthMM()),
			message.Along("off", math.Abs(d.OffsetMM)))
	}
	if about == "drain.offsetMM" {
		return message.Of("refused.drain-side", message.MM("length", s.job.DrainLengthMM()), message.Along("side", s.job.DrainSideMM()))
	}
	if len(released) > 0 {
		return s.whyHeld(released[0])
	}
	return problems[0].Message()
}

// wayRoundShort tells whether a problem is that the measured way round is too short for one measure since another was stated.
func (s *settler) wayRoundShort(p job.Problem) bool {
	figure, ok := s.edit.Figure()
	return ok && p.What.ID == job.LongerThanRound && figure.Key != p.Key && within(figure.Key, job.TapeLengthsKey)
}

// whyHeld says what is held and in the way.
func (s *settler) whyHeld(r release) message.Message {
	if len(r.keys) == 1 {
		if v, ok := valueOf(s.before, r.keys[0]); ok {
			return message.Of("refused.held-at", message.In("what", s.job.PlaceOf(r.keys[0])), message.Arg{Name: "value", Value: v})
		}
	}
	return message.Of("refused.held", message.In("thing", s.named(r.thing, true)))
}

// about tells whether it is a number or the room that the edit is about.
func (s *settler) about(key string) bool { return slices.Contains(s.states, key) && s.changed(key) }

// showerWrong tells whether a problem is that the shower has no place.
func (s *settler) showerWrong(key string) bool { return key == showerKey || key == "" }

// tooLong tells whether a problem is that something does not fit into its wall.
func (s *settler) tooLong(key string) bool {
	item := itemOf(key)
	return strings.HasSuffix(key, ".offsetMM") && (within(item, job.DoorwaysKey) || within(item, windowsKey) || within(item, fixturesKey))
}

func (s *settler) whyTooLong(key string) message.Message {
	item := itemOf(key)
	for _, p := range spans(&s.applied, nil) {
		if p.key == item {
			length := s.applied.Room.WallLengthMM(p.wall)
			args := []message.Arg{message.In("thing", s.named(item, true)), message.Along("width", p.longMM), message.Along("from", p.fromMM),
				s.applied.Room.Wall("wall", p.wall), message.Along("length", length)}
			if p.longMM > length {
				return message.Of("refused.too-wide", args[0], args[1], args[3], args[4])
			}
			return message.Of("refused.past-wall", append(args, message.AtCorner("corner", s.applied.Room.Corner(p.wall)))...)
		}
	}
	return message.Of("refused.held", message.In("thing", s.named(item, true)))
}

// besideShower is what the shower has at its two ends along its wall: what is held there, or the next
// walls.
func (s *settler) besideShower() (one, other message.Message) {
	wall := s.before.Shower.Wall
	n := len(s.before.Room.Outline)
	next := func(i int) message.Message { return message.Of("the.wall", s.job.Room.Wall("wall", i)) }
	one, other = next((wall+n-1)%n), next((wall+1)%n)
	from, to := s.before.Shower.OffsetMM, s.before.Shower.OffsetMM+s.before.Shower.WidthMM
	low, high := 0.0, s.before.Room.WallLengthMM(wall)
	for _, p := range spans(s.before, nil) {
		if p.wall != wall || p.kind == showerSpan || p.kind == windowSpan || !s.held(p.offsetKey()) {
			continue
		}
		if p.toMM() <= from+plan.HairMM && p.toMM() > low {
			low, one = p.toMM(), s.named(p.key, false)
		}
		if p.fromMM >= to-plan.HairMM && p.fromMM < high {
			high, other = p.fromMM, s.named(p.key, false)
		}
	}
	return one, other
}
