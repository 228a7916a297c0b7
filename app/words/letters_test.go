package words_test

import (
	"regexp"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/message"
)

// Nothing that is said of a demo calls a wall or a corner by a number, or a joist without the wall that
// it is counted from.
func TestWallsCornersAndJoistsAreNamed(t *testing.T) {
	numbered := regexp.MustCompile(`(?i)\b(wall|corner) [0-9]|\bjoists? [0-9]+(, |$| [^ft])`)
	british, american := books(t)
	said := 0
	say := func(m message.Message) {
		said++
		for _, text := range []string{british.Say(m), american.Say(m)} {
			if numbered.MatchString(text) {
				t.Errorf("“%s” (%s)", text, m)
			}
		}
	}
	for _, r := range demotest.Results(t) {
		for _, m := range r.Measured {
			say(m.Subject.Message())
		}
		for _, f := range r.Findings {
			say(f.Message())
		}
		for i := range r.Assembly.Parts {
			say(r.Assembly.Parts[i].Name)
			say(r.Settled.PlaceOf(r.Assembly.Parts[i].From))
		}
		for i := range r.Layout.Joists {
			say(r.Layout.Joists[i].Shape())
		}
		for _, m := range r.Cutting().Lines() {
			say(m)
		}
		say(r.Settled.LeadsTo())
	}
	if said < 1000 {
		t.Errorf("only %d things said", said)
	}
}
