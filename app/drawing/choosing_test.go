package drawing

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/section"
)

// told is what a plan tells of what is chosen in it.
type told struct {
	chosen []section.ThingID // as it was told, zero for nothing
	tags   []section.ThingID
	keys   bool // that the last tag was to take
	typed  rune
}

// choosingPlan is a plan that tells what is chosen in it.
func choosingPlan(t *testing.T) (*View, *bench, *told) {
	t.Helper()
	v, b := at(t, still.Plan, fyne.NewSize(600, 420))
	got := &told{}
	v.Selected = func(thing section.Thing, _ bool) { got.chosen = append(got.chosen, thing.ThingID) }
	v.OpenTag = func(thing section.Thing, keys bool, typed rune) {
		got.tags, got.keys, got.typed = append(got.tags, thing.ThingID), keys, typed
	}
	return v, b, got
}

// pressOn presses a thing in its middle.
func pressOn(v *View, id section.ThingID) {
	thing, _ := v.drawing.Thing(id)
	v.Tapped(&fyne.PointEvent{Position: v.toWindow(thing.At)})
}

// A press chooses what is there and opens its tag, which leaves the keys to the drawing; a press on nothing
// has nothing chosen.
func TestPressChooses(t *testing.T) {
	v, b, got := choosingPlan(t)
	door := section.ThingID{Key: "room.doorways[0]"}
	pressOn(v, door)
	if chosen, ok := v.Chosen(); !ok || chosen.ThingID != door || len(got.tags) != 1 || got.tags[0] != door || got.keys {
		t.Fatalf("chosen %v, told %+v", chosen.ThingID, got)
	}
	if b.status != "Doorway 1" || v.AccessibilityLabel() != "Doorway 1" {
		t.Errorf("it says %q and %q", b.status, v.AccessibilityLabel())
	}
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(3, 3)})
	if _, ok := v.Chosen(); ok || got.chosen[len(got.chosen)-1] != (section.ThingID{}) {
		t.Errorf("told %+v", got)
	}
}

// The keys go from thing to thing; T and Enter open the tag with the keys, and what is typed goes there. Escape
// has nothing chosen, and then is nobody's here.
func TestKeysChoose(t *testing.T) {
	v, b, got := choosingPlan(t)
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			v.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	key(fyne.KeyHome, fyne.KeyRight, fyne.KeyDown, fyne.KeyLeft)
	if chosen, _ := v.Chosen(); chosen.ThingID != v.drawing.Things[1].ThingID {
		t.Errorf("%v is chosen", chosen.ThingID)
	}
	key(fyne.KeyEnd)
	if chosen, _ := v.Chosen(); chosen.ThingID != v.drawing.Things[len(v.drawing.Things)-1].ThingID {
		t.Errorf("the last is %v", chosen.ThingID)
	}
	if len(got.tags) != 0 {
		t.Errorf("tags %v", got.tags)
	}
	key(fyne.KeyReturn)
	if len(got.tags) != 1 || !got.keys || got.typed != 0 {
		t.Errorf("Enter told %+v", got)
	}
	v.TypedRune('t')
	if len(got.tags) != 2 || !got.keys || got.typed != 0 {
		t.Errorf("T told %+v", got)
	}
	key(fyne.Key5)
	v.TypedRune('5')
	if len(got.tags) != 3 || got.typed != '5' {
		t.Errorf("5 told %+v", got)
	}
	v.TypedRune('x')
	if len(got.tags) != 3 {
		t.Errorf("x told %+v", got)
	}
	if len(b.keys) != 0 {
		t.Errorf("%v went on", b.keys)
	}
	key(fyne.KeyEscape)
	if _, ok := v.Chosen(); ok || len(b.keys) != 0 {
		t.Errorf("chosen still, %v went on", b.keys)
	}
	key(fyne.KeyEscape, fyne.Key5)
	if len(b.keys) != 2 {
		t.Errorf("%v went on", b.keys)
	}
}

// What is chosen is taken hold of with Space, and then moved by the arrow keys.
func TestSpaceTakesHold(t *testing.T) {
	v, b, _ := choosingPlan(t)
	door := section.ThingID{Key: "room.doorways[0]"}
	for chosen := (section.Thing{}); chosen.ThingID != door; chosen, _ = v.Chosen() {
		v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	was := b.Desk.Job().Room.Doorways[0].OffsetMM
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if v.picked.handle.Kind != edit.HandleDoorway {
		t.Fatalf("holds %v", v.picked)
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	b.Until("the door to move", func() bool { return b.Desk.Job().Room.Doorways[0].OffsetMM < was })
}

// What the job no longer has is chosen no longer.
func TestWhatIsGoneIsNotChosen(t *testing.T) {
	v, b, got := choosingPlan(t)
	fixture := section.ThingID{Key: "room.fixtures[0]"}
	pressOn(v, fixture)
	if chosen, _ := v.Chosen(); chosen.ThingID != fixture {
		t.Fatalf("%v is chosen", chosen.ThingID)
	}
	j := b.Desk.Job()
	j.Room.Fixtures = nil
	if err := b.Desk.Replace(j); err != nil {
		t.Fatal(err)
	}
	b.Until("nothing to be chosen", func() bool { return got.chosen[len(got.chosen)-1] == section.ThingID{} })
}
