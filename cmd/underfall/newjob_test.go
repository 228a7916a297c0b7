package main_test

import (
	"testing"
	"time"
)

// openStart opens the program on its start page in a language, with nothing kept from before.
func (d *desktop) openStart(language string) {
	d.t.Helper()
	d.language = language
	d.run()
	d.wait("page start")
	d.wait("page has the keys")
}

// answers gives the answers of a sheet by the keyboard, each a text for the field that has the keys or a
// key that chooses; empty goes on to what is next. It gives how many answers there were.
func (d *desktop) answers(all ...string) (n int) {
	d.t.Helper()
	for _, a := range all {
		switch a {
		case "":
			d.key("Tab")
			continue
		case "space":
			d.key(a)
		case "Right":
			d.key(a)
			continue
		default:
			d.do("type", "--delay", "30", a)
		}
		n++
		d.key("Tab")
	}
	return n
}

// From the start page to the first answer of a room of one's own, by the keyboard alone: on concrete with
// a door, the shower at the back wall and the water out through the side wall in at most 12 answers and a
// minute; on joists that the pipe has to cross in at most 16.
func TestTheFirstAnswerInAMinute(t *testing.T) {
	room := []string{"2400", "1900", "", "760", "140", ""} // the door stays in A
	concrete, timber := []string{"space"}, []string{"Right", "space", "Right", "space", "195", "47", "400"}
	shower := []string{"1400", "900", "Right", "space", "space"} // in corner BC, out through B
	inches := []string{"8'", "6' 3", "", "30", "8", "", "space", "54", "36", "Right", "space", "space"}
	for _, c := range []struct {
		name, language string
		answers        []string
		most           int
		raise          string
	}{
		{"on concrete", "en-GB", append(append(append([]string{}, room...), concrete...), shower...), 12, `base top 7[5-9]`},
		{"on joists", "en-GB", append(append(append([]string{}, room...), timber...), shower...), 16, `base top`},
		{"in inches", "en-US", inches, 12, `base top`},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := openDesktop(t)
			d.openStart(c.language)
			began := time.Now()
			d.forget()
			d.key("ctrl+n")
			d.wait("page has the keys")
			d.wait("first answer")
			n := d.answers(c.answers...)
			d.pause()
			d.wait(`first answer true cases 1 `)
			took := time.Since(began)
			if n > c.most || took > time.Minute {
				t.Errorf("%d answers in %v", n, took)
			}
			t.Logf("%d answers in %v", n, took.Round(time.Second/10))
			d.forget()
			d.click(320, 757) // work on this floor
			d.wait(`page desk`)
			d.wait(c.raise + `.* stops 0 problems 0`)
		})
	}
}
