package geometry_test

import (
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// answerOf stands so, with a step at the way in and, lower on purpose, one at another edge.
func answerOf(s geometry.Standing, mm float64, kind geometry.StepKind) geometry.Answer {
	return geometry.Answer{Standing: s, Steps: []geometry.Step{
		{Where: rule.Subject{Of: rule.OpenEdge, Number: 1}, MM: mm / 2, Kind: kind},
		{Where: rule.Subject{Of: rule.OpenEdge, Number: 2}, MM: mm, Kind: kind},
		{Where: rule.Subject{Of: rule.Doorway, Number: 1}, MM: mm * 3, Kind: geometry.AStep}}}
}

// The way in is the worst open edge, whatever doorways have; a doorway where no edge is open.
func TestTheWayIn(t *testing.T) {
	a := answerOf(geometry.Sound, -50, geometry.AStep)
	if s, ok := a.WayIn(); !ok || s.MM != -50 {
		t.Errorf("%v, %v", s, ok)
	}
	a.Steps = a.Steps[2:]
	if s, ok := a.WayIn(); !ok || s.MM != -150 {
		t.Errorf("no open edge: %v, %v", s, ok)
	}
	if _, ok := (geometry.Answer{}).WayIn(); ok {
		t.Error("a step out of nothing")
	}
}

// The answer to what is not all known, by hand: first what it is as drawn, then what it may be.
func TestAnswersAmongCases(t *testing.T) {
	sound, tight, unknown := geometry.Sound, geometry.Tight, geometry.NotKnown
	step := func(s geometry.Standing, mm float64) geometry.Answer { return answerOf(s, mm, geometry.AStep) }
	stops := geometry.Answer{Standing: geometry.Stops}
	for name, c := range map[string]struct {
		all  []geometry.Answer
		want geometry.Standing
		says message.ID
	}{
		"alone":            {[]geometry.Answer{step(tight, 100)}, tight, "answer.chancy"},
		"the same":         {[]geometry.Answer{step(sound, 100), step(sound, 100)}, sound, "answer.sound-so-far"},
		"ten apart":        {[]geometry.Answer{step(sound, 100), step(sound, 110)}, sound, "answer.sound-so-far"},
		"more apart":       {[]geometry.Answer{step(sound, 100), step(sound, 110.01)}, unknown, "answer.depends-step"},
		"another kind":     {[]geometry.Answer{step(sound, 40), answerOf(sound, 39, geometry.Lip)}, unknown, "answer.depends-step"},
		"one stops":        {[]geometry.Answer{step(sound, 100), stops}, unknown, "answer.depends-built"},
		"drawn stops":      {[]geometry.Answer{stops, step(sound, 100)}, unknown, "answer.depends-built"},
		"all stop":         {[]geometry.Answer{stops, stops}, geometry.Stops, "answer.stops"},
		"one is tight":     {[]geometry.Answer{step(sound, 100), step(tight, 100)}, tight, "answer.tight-case"},
		"drawn is tight":   {[]geometry.Answer{step(tight, 100), step(sound, 100)}, tight, "answer.chancy"},
		"one is not known": {[]geometry.Answer{step(tight, 100), step(unknown, 100)}, unknown, "answer.depends"},
	} {
		got := c.all[0].Among(c.all, message.Of("unknown.floor"))
		if got.Standing != c.want || got.Headline().ID != c.says {
			t.Errorf("%s: %v, %v; want %v, %v", name, got.Standing, got.Headline().ID, c.want, c.says)
		}
	}
}

// The order of the cases changes nothing, nor does it matter how often one is there.
func TestOrderOfCases(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.Custom(func(t *rapid.T) geometry.Answer {
			s := rapid.SampledFrom([]geometry.Standing{geometry.Stops, geometry.NotKnown, geometry.Tight, geometry.Sound}).Draw(t, "standing")
			mm := rapid.Float64Range(41, 60).Draw(t, "step")
			return answerOf(s, mm, geometry.AStep)
		})
		all := rapid.SliceOfN(one, 2, 6).Draw(t, "cases")
		want := all[0].Among(all, message.Message{}).Standing
		turned := rapid.Permutation(all).Draw(t, "turned")
		if got := turned[0].Among(turned, message.Message{}).Standing; got != want {
			t.Fatalf("%v, turned %v", want, got)
		}
		twice := append(turned, turned...)
		if got := twice[0].Among(twice, message.Message{}).Standing; got != want {
			t.Fatalf("%v, twice %v", want, got)
		}
	})
}

// Beside a headline that leaves open whether it can be built no chance stands that says it comes right: it is said to be of the job as
// drawn, and how many of the possibilities cannot be built. A job that is known keeps the plain line.
func TestTheChanceDoesNotContradictTheHeadline(t *testing.T) {
	sure := answerOf(geometry.Sound, 100, geometry.AStep)
	sure.Counted, sure.Chance = true, 1
	stops := answerOf(geometry.Stops, 100, geometry.AStep)
	open := sure.Among([]geometry.Answer{sure, stops, stops}, message.Of("unknown.floor"))
	if line := open.ChanceLine().String(); open.Headline().ID != "answer.depends-built" || line != "answer.chance-of-cases{n: 100, stops: 2, all: 3}" ||
		open.ChanceOf() != "answer.right-as-drawn" {
		t.Errorf("%s – %s, %s", open.Headline(), line, open.ChanceOf())
	}
	steps := sure.Among([]geometry.Answer{sure, answerOf(geometry.Sound, 150, geometry.AStep)}, message.Of("unknown.floor"))
	if line := steps.ChanceLine().String(); line != "answer.chance-as-drawn{n: 100}" {
		t.Errorf("%s – %s", steps.Headline(), line)
	}
	if line := sure.ChanceLine().String(); line != "answer.chance{n: 100}" || sure.ChanceOf() != "answer.comes-right" {
		t.Errorf("%s – %s", sure.Headline(), line)
	}
	sure.Assumed = []message.Message{message.Of("unknown.floor")}
	if line := sure.ChanceLine().String(); line != "answer.chance-if-assumed{n: 100}" {
		t.Errorf("with something assumed: %s", line)
	}
}
