package answer_test

import (
	"image"
	"image/color"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// inEnglish is a window of a size with an object, in British English.
func inEnglish(t *testing.T, o fyne.CanvasObject, size fyne.Size) {
	t.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	a := test.NewTempApp(t)
	a.Settings().SetTheme(theme.New(false, shelf.Book(words.British, unit.Metric, nil)))
	w := test.NewTempWindow(t, o)
	w.SetPadded(false)
	w.Resize(size)
}

// The plate says of every demo what the answer says, its step as figures everybody reads.
func TestThePlateSaysTheAnswer(t *testing.T) {
	p := answer.New(control.NewKeys(), answer.Asks{}, nil)
	inEnglish(t, p, fyne.NewSize(340, 420))
	for _, r := range demotest.Shown(t) {
		a := r.Answer(nil)
		p.Tell(r, a)
		if p.Standing() != a.Standing || p.Headline() == "" {
			t.Errorf("%s: “%s” as %s, the answer is %s", r.Settled.Name, p.Headline(), p.Standing(), a.Standing)
		}
		if behind := p.Behind(); strings.Contains(behind, "Raise") == strings.Contains(behind, "Let down") || !strings.Contains(behind, "Step ") {
			t.Errorf("%s: behind it: %s", r.Settled.Name, behind)
		}
		if need := p.MinSize().Width; need > 340 {
			t.Errorf("%s: the plate needs %v", r.Settled.Name, need)
		}
	}
}

// The strip of the chance is as wide as the plate's lines are, however wide the plate is: what is full
// reaches their end where all builds come right, and does not where one does not.
func TestTheStripIsAsWideAsThePlate(t *testing.T) {
	r := demotest.Shown(t)[0]
	a := r.Answer(nil)
	a.Counted = true
	for _, width := range []float32{280, 340, 460} {
		for chance, whole := range map[float64]bool{1: true, 0.97: false} {
			p := answer.New(control.NewKeys(), answer.Asks{}, nil)
			inEnglish(t, p, fyne.NewSize(width, 420))
			a.Chance = chance
			p.Tell(r, a)
			img := fyne.CurrentApp().Driver().CanvasForObject(p).Capture()
			strip, lines := 0, int(width) // where they end; what else is of the lines' colour is the card's edge
			for y := range img.Bounds().Dy() {
				if parts, _, end := ofRole(img, y, theme.Sound); parts >= 19 {
					strip = max(strip, end)
				}
				if _, long, end := ofRole(img, y, theme.Line); long > int(width)/2 {
					lines = min(lines, end)
				}
			}
			const cell = 1 / 20.0
			if near := lines-strip < int(float32(lines)*cell/2); strip == 0 || near != whole {
				t.Errorf("%g wide, %g: the strip is full to %d, lines end at %d", width, chance, strip, lines)
			}
		}
	}
}

// ofRole tells how many parts of a line of pixels have a role's colour, how many pixels do, and where the
// last is.
func ofRole(img image.Image, y int, role theme.Role) (parts, long, end int) {
	is := func(x int) bool { return color.NRGBAModel.Convert(img.At(x, y)) == role.In(false) }
	for x := 1; x < img.Bounds().Dx()-5; x++ { // within the card's edge
		if is(x) && !is(x-1) {
			parts++
		}
		if is(x) {
			long, end = long+1, x
		}
	}
	return parts, long, end
}

// A job that means nothing has no figures, and says why.
func TestThePlateOfNothing(t *testing.T) {
	p := answer.New(control.NewKeys(), answer.Asks{}, nil)
	inEnglish(t, p, fyne.NewSize(340, 420))
	r := demotest.Shown(t)[0]
	r.Problems = job.Problems{{Key: "room.heightMM"}}
	p.Tell(r, r.Answer(nil))
	if p.Standing() != geometry.Stops || strings.Contains(p.Behind(), "Raise") {
		t.Errorf("“%s”: %s", p.Headline(), p.Behind())
	}
}

// What is only to be noted is counted by itself; what is for a qualified person is to be settled.
func TestToSettle(t *testing.T) {
	card := func(s rule.Severity, quantity string) geometry.Card {
		return geometry.Card{Places: []geometry.Place{{Finding: rule.Finding{Rule: rule.Rule{Quantity: quantity, Severity: s}}}}}
	}
	a := geometry.Answer{Cards: []geometry.Card{card(rule.Stop, "a.b"), card(rule.Licensed, "c.d"), card(rule.Advice, "e.f"), card(rule.Note, "g.h")}}
	if n := answer.ToSettle(a); n != 3 {
		t.Errorf("%d to settle, want 3", n)
	}
}

// signed tells whether a sign shows in an object.
func signed(all fyne.CanvasObject) (is bool) {
	roomtest.EachShown(all, func(o fyne.CanvasObject) {
		_, ok := o.(*control.Sign)
		is = is || ok
	})
	return is
}

// The teller shows what it is told with its offers, each of which does what it says; nothing to
// say takes it away.
func TestTheTeller(t *testing.T) {
	done := ""
	tell := answer.NewTeller(control.NewKeys())
	inEnglish(t, tell, fyne.NewSize(340, 200))
	if tell.Visible() {
		t.Error("it shows before it says anything")
	}
	tell.Tell("A shower 1524 wide does not fit.", true, answer.Offer{Text: "Make it 1500", Do: func() { done = "cure" }},
		answer.Offer{Text: "Leave it", Do: func() { done = "left" }})
	if !tell.Visible() || !slices.Equal(tell.Offers(), []string{"Make it 1500", "Leave it"}) {
		t.Errorf("shows: %v, offers %v", tell.Visible(), tell.Offers())
	}
	if !signed(tell) {
		t.Error("what is refused is told by colour alone")
	}
	if !tell.Press("Make it 1500") || done != "cure" || !tell.Press("Leave it") || done != "left" || tell.Press("Undo") {
		t.Errorf("the last pressed did %q", done)
	}
	if tell.Tell("The door is in wall D now.", false); signed(tell) {
		t.Error("what moved has the sign of what is refused")
	}
	tell.Tell("", false)
	if tell.Visible() || len(tell.Offers()) > 0 || tell.Text() != "" {
		t.Errorf("with nothing to say it says %q and offers %v", tell.Text(), tell.Offers())
	}
}

// The plate's figures of height are told as heights are counted, and it says from what: those of the starting job,
// whose room's floor is 13 over the slab, the ground at -150 and the laser's line 1000 over 13 under it; a raise is
// none of them. Other units and what is counted from something else are no move of a figure.
func TestFiguresFollowTheDatum(t *testing.T) {
	roomtest.British(t)
	j, known := job.New(), -13.0
	j.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &known, DownMM: 1000}}}
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	s := sight.New(func(f func()) { f() }, nil)
	p := answer.New(control.NewKeys(), answer.Asks{Sight: s, ShowFigure: func(geometry.Figure) {}}, func(geometry.Card) {})
	told := func(of geometry.DatumOf) (behind string, way, room, raise int) {
		s.Change(func(s *sight.State) { s.Datum = of })
		p.Tell(r, r.Answer(nil))
		lines := strings.Split(p.Behind(), "\n")
		after := func(caption string, skip int) string { return lines[slices.Index(lines, caption)+skip] }
		number := func(text string) int {
			n, err := strconv.Atoi(strings.TrimPrefix(strings.TrimPrefix(text, "up, room "), "+"))
			if err != nil {
				t.Fatal(err)
			}
			return n
		}
		return p.Behind(), number(after("Way out", 1)), number(after("Step in", 2)), number(after("Raise", 1))
	}
	behind, way, room, raise := told(geometry.OverStructure)
	if room != 13 || strings.Contains(behind, "Levels") {
		t.Errorf("over the structural floor the room is at %d: %s", room, behind)
	}
	for of, from := range map[geometry.DatumOf]struct {
		overMM int
		down   bool
		said   string
	}{geometry.OverRoom: {13, false, "Levels over the room's floor"}, geometry.OverGround: {-150, false, "Levels over the ground outside"},
		geometry.UnderLaser: {987, true, "Levels down from the laser"}} {
		want := func(level int) int {
			if from.down {
				return from.overMM - level
			}
			return level - from.overMM
		}
		said, w, m, up := told(of)
		if w != want(way) || m != want(room) || up != raise || !strings.Contains(said, from.said) {
			t.Errorf("%s: way out %d, room %d, raise %d for %d, %d, %d: %s", of, w, m, up, want(way), want(room), raise, said)
		}
	}
}

// Where a trap sets the height the plate leads to the drains with their traps; where something else does it does not.
func TestThePlateLeadsToTraps(t *testing.T) {
	roomtest.British(t)
	led := ""
	p := answer.New(control.NewKeys(), answer.Asks{ToField: func(key string) { led = key }}, nil)
	p.Resize(fyne.NewSize(340, 520))
	seen := map[bool]int{}
	for _, r := range demotest.Shown(t) {
		a := r.Answer(nil)
		p.Tell(r, a)
		var traps *control.Press
		for _, o := range test.LaidOutObjects(p) {
			if press, is := o.(*control.Press); is && press.Visible() && press.Text == "See traps" {
				traps = press
			}
		}
		set := a.SetBy.OfTrap()
		if seen[set]++; (traps != nil) != set {
			t.Errorf("%s: set by %v, traps can be seen: %v", r.Settled.Name, a.SetBy.By, traps != nil)
		}
		if traps != nil {
			led = ""
			if traps.OnPressed(); led != "parts.drain" {
				t.Errorf("it leads to %q", led)
			}
		}
	}
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("set by a trap or not: %v", seen)
	}
}
