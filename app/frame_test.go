package app

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// widths of a window at which its layout is looked at: the least, the sides of each border
// between layouts, and screens as they are sold, common practice, no source.
func widths() []fyne.Size {
	return []fyne.Size{{Width: 1024, Height: 656}, {Width: 1024, Height: 700}, {Width: 1179, Height: 700}, {Width: 1180, Height: 700},
		{Width: 1280, Height: 800}, {Width: 1599, Height: 900}, {Width: 1600, Height: 900}, {Width: 1920, Height: 1080},
		{Width: 2560, Height: 1440}, {Width: 3840, Height: 2160}}
}

// arrangements are ways the window may be laid out.
func arrangements() (out []arrangement) {
	for _, front := range []region{regionPlan, regionPicture} {
		for _, tray := range []struct{ open, fields bool }{{}, {true, true}, {true, false}} {
			for _, by := range []float32{-5000, 0, 5000} { // units: as far as either way goes
				a := arrangement{front: front, lower: front + regionSection - regionPlan, trayOpen: tray.open, trayFields: tray.fields}
				if by != 0 {
					a.plan.move(by, 800, 0.5)
					a.upper.move(by, 500, 0.5)
				}
				out = append(out, a)
			}
		}
	}
	return out
}

// meet tells whether two places have ground in common, by more than what rounding makes.
func meet(a, b place) bool {
	const hair = 0.01
	return min(a.at.X+a.size.Width, b.at.X+b.size.Width)-max(a.at.X, b.at.X) > hair &&
		min(a.at.Y+a.size.Height, b.at.Y+b.size.Height)-max(a.at.Y, b.at.Y) > hair
}

// At every width no region overlaps another, none is out of the window, none that shows is too small to show
// anything, and of plan and picture, and of section and rods, one shows at least.
func TestRegionsHaveTheirOwnGround(t *testing.T) {
	names := map[region]string{regionTop: "top", regionPlan: "plan", regionPicture: "picture", regionSection: "section", regionRods: "rods",
		regionAnswer: "answer", regionReadout: "readout", regionRail: "rail", regionTray: "tray", regionTrial: "trial"}
	for _, size := range widths() {
		for _, a := range arrangements() {
			p := a.placed(size)
			name := func(r region) string { return fmt.Sprintf("%s at %v, %+v", names[r], size, a) }
			window := placeAt(0, 0, size.Width, size.Height, true)
			for r, at := range p.regions {
				if !at.seen {
					continue
				}
				if at.at.X < 0 || at.at.Y < 0 || at.at.X+at.size.Width > window.size.Width+0.01 || at.at.Y+at.size.Height > window.size.Height+0.01 {
					t.Errorf("%s reaches out of the window: %v", name(region(r)), at)
				}
				const leastWidth, leastHeight = 72, 24 // units: of a head with one choice, of a line
				if at.size.Width < leastWidth || at.size.Height < leastHeight {
					t.Errorf("%s has only %v", name(region(r)), at.size)
				}
				for other, with := range p.regions[:r] {
					if with.seen && meet(at, with) {
						t.Errorf("%s overlaps the %s: %v, %v", name(region(r)), names[region(other)], at, with)
					}
				}
			}
			plan, picture := p.regions[regionPlan].seen, p.regions[regionPicture].seen
			section, rods := p.regions[regionSection], p.regions[regionRods]
			if least := min(section.size.Width, rods.size.Width); !section.seen && !rods.seen || section.seen && rods.seen && least < 268 {
				t.Errorf("at %v the section shows: %v, the rods: %v, the lesser %v wide", size, section.seen, rods.seen, least)
			}
			narrow := size.Width < mediumFrom || p.regions[regionAnswer].at.X-frameGap-p.regions[regionPlan].at.X < 720
			switch {
			case !plan && !picture:
				t.Errorf("neither plan nor picture shows at %v", size)
			case narrow == (plan && picture):
				t.Errorf("at %v the plan shows: %v, the picture: %v", size, plan, picture)
			case narrow && !p.regions[a.front].seen:
				t.Errorf("at %v the other of plan and picture shows", size)
			}
			if p.across.seen != p.both || !p.upright.seen {
				t.Errorf("at %v the grips show: %v, %v", size, p.across.seen, p.upright.seen)
			}
		}
	}
}

// A trial takes the place of all but the top and the rail, at every width, and lies on neither.
func TestATrialHasTheDrawingsGround(t *testing.T) {
	for _, size := range widths() {
		for _, a := range arrangements() {
			a.trial = true
			p := a.placed(size)
			for r, at := range p.regions {
				if r := region(r); at.seen != (r == regionTop || r == regionRail || r == regionTrial) {
					t.Errorf("at %v region %d shows: %v", size, r, at.seen)
				}
			}
			trial, grips := p.regions[regionTrial], p.across.seen || p.upright.seen
			if meet(trial, p.regions[regionTop]) || meet(trial, p.regions[regionRail]) || grips || trial.size.Height < 400 {
				t.Errorf("at %v the trial has %v", size, trial)
			}
		}
	}
}

// Beside the open tray a window of 1280 has 600 for the drawings, in which plan and picture share one place; a
// window of 1600 has room for both, and so has one of 1280 without the tray.
func TestPlanHasRoomBesideTheTray(t *testing.T) {
	for _, c := range []struct {
		width float32
		tray  bool
		both  bool
	}{{1280, false, true}, {1280, true, false}, {1600, true, true}, {1600, false, true}} {
		a := usualArrangement()
		a.trayOpen, a.trayFields = c.tray, c.tray
		p := a.placed(fyne.NewSize(c.width, 800))
		plan, picture := p.regions[regionPlan], p.regions[regionPicture]
		if !plan.seen || picture.seen != c.both || plan.size.Width < 360 {
			t.Errorf("%v wide, the tray open %v: the plan is %v wide, the picture shows %v", c.width, c.tray, plan.size.Width, picture.seen)
		}
	}
}

// While the room is measured the plan has the place of all drawings, at every width, and does not lie under the tray; asked
// for, the picture comes back, and with another station everything.
func TestRoomHasThePlanAlone(t *testing.T) {
	for _, size := range widths() {
		a := usualArrangement()
		a.trayOpen, a.trayFields, a.roomAlone = true, true, true
		p := a.placed(size)
		for _, r := range []region{regionPicture, regionSection, regionRods} {
			if p.regions[r].seen {
				t.Errorf("at %v region %d shows", size, r)
			}
		}
		grips := p.across.seen || p.upright.seen
		if plan := p.regions[regionPlan]; !plan.seen || plan.size.Width < 360 || meet(plan, p.regions[regionTray]) || grips {
			t.Errorf("at %v the plan is at %v", size, plan)
		}
	}
	w, _ := openWindow(t, Options{})
	w.window.Resize(fyne.NewSize(1280, 800))
	w.sides.close()
	alone := func() bool { return !w.frame.clips[regionSection].Visible() && !w.frame.clips[regionPicture].Visible() }
	w.openStation(0)
	if !alone() || !w.waiting.Visible() {
		t.Error("the room does not have the plan alone")
	}
	d := fyne.CurrentApp().Driver()
	if off := d.AbsolutePositionForObject(w.waiting).X - d.AbsolutePositionForObject(w.planHead.object).X; off < theme.Space2 {
		t.Errorf("what waits is told %v from the edge, the drawing's name stands at %v", off, theme.Space2)
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.Key1})
	if alone() || w.waiting.Visible() {
		t.Error("the picture does not come when it is asked for")
	}
	w.openStation(2)
	w.openStation(0)
	if !alone() {
		t.Error("opened again, the room does not have the plan alone")
	}
	w.sides.close()
	if alone() {
		t.Error("closed, the room still has the plan alone")
	}
}

// A grip moves the border by as much as it is dragged, leaves either side a fifth, and goes back
// on a double press.
func TestGripsMoveAndGoBack(t *testing.T) {
	for _, size := range widths() {
		f := newFrame(usualArrangement())
		w := test.NewTempWindow(t, f.all)
		w.SetPadded(false)
		w.Resize(size)
		for _, c := range []struct {
			grip    *grip
			long    func(fyne.Size) float32
			one     region
			to      fyne.Delta
			applies bool
		}{
			{f.across, func(s fyne.Size) float32 { return s.Width }, regionPlan, fyne.Delta{DX: 40}, size.Width >= mediumFrom},
			{f.upright, func(s fyne.Size) float32 { return s.Height }, regionPlan, fyne.Delta{DY: -40}, true},
		} {
			if !c.applies {
				continue
			}
			has := func() float32 { return c.long(f.clips[c.one].Size()) }
			usual := has()
			c.grip.Dragged(&fyne.DragEvent{Dragged: c.to})
			// Of the plan's width the gap between the two is not part: a little less than dragged.
			if by := c.to.DX + c.to.DY; has()-usual < min(by, by*0.98)-0.01 || has()-usual > max(by, by*0.98)+0.01 {
				t.Errorf("%v: dragged by %v the region is %v longer", size, by, has()-usual)
			}
			for range 200 {
				c.grip.Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: c.to.DX * 10, DY: c.to.DY * 10}})
			}
			whole := c.long(f.arrangement.placed(f.all.Size()).drawings)
			if left := min(has(), whole-has()); left < 0.19*whole-topGap-frameGap {
				t.Errorf("%v: dragged to the end one side has %v of %v", size, left, whole)
			}
			c.grip.DoubleTapped(nil)
			if has() != usual {
				t.Errorf("%v: pressed twice it has %v, not %v", size, has(), usual)
			}
		}
	}
}

// Where plan and picture share one place either can be brought into sight: by the button in the
// other's head, by choosing what shows in it, by its keys.
func TestPlanAndPictureShareOnePlace(t *testing.T) {
	w, _ := openWindow(t, Options{})
	shows := func(want region, how string) {
		t.Helper()
		plan, picture := w.frame.clips[regionPlan].Visible(), w.frame.clips[regionPicture].Visible()
		if plan != (want == regionPlan) || picture != (want == regionPicture) {
			t.Errorf("%s: the plan shows %v, the picture %v", how, plan, picture)
		}
	}
	key := func(k fyne.KeyName) func() {
		return func() { w.digitAt = time.Time{}; w.keys.Plain(&fyne.KeyEvent{Name: k}) } // not of a figure
	}
	toPicture := func() {
		t.Helper()
		if !w.planHead.toPicture.Visible() {
			t.Fatal("no button for the picture")
		}
		test.Tap(w.planHead.toPicture)
	}
	w.sides.close() // while the room is measured the picture waits
	w.window.Resize(fyne.NewSize(1024, 700))
	shows(regionPlan, "at first")
	for i, show := range []func(){toPicture, key(fyne.Key1), key(fyne.Key2), key(fyne.KeyLeft), key(fyne.KeyC), key(fyne.KeyPageUp)} {
		show()
		shows(regionPicture, fmt.Sprintf("to the picture, way %d", i))
		switch i % 3 {
		case 0:
			test.Tap(w.pictureHead.toPlan)
		case 1: // the plan, the bed or the boards are chosen
			w.drawings.SelectIndex(3)
		case 2: // the next drawing
			w.drawings.SelectIndex(0)
			shows(regionPicture, "the section chosen")
			key(fyne.KeyP)()
		}
		shows(regionPlan, fmt.Sprintf("to the plan, way %d", i%3))
	}
	w.window.Resize(fyne.NewSize(1600, 900))
	if !w.frame.clips[regionPlan].Visible() || !w.frame.clips[regionPicture].Visible() {
		t.Error("in a wide window not both show")
	}
	if w.planHead.toPicture.Visible() {
		t.Error("in a wide window there is a button for the other")
	}
}

// Where section and rods share one place, as beside the tray in a small window, the head of each leads to the other, a cut
// that is asked for brings the section and a rod that is stood up the rods; without the tray both show.
func TestSectionAndRodsShareOnePlace(t *testing.T) {
	w, _ := openWindow(t, Options{})
	shows := func(section, rods bool, how string) {
		t.Helper()
		if s, r := w.frame.clips[regionSection].Visible(), w.frame.clips[regionRods].Visible(); s != section || r != rods {
			t.Errorf("%s: the section shows %v, the rods %v", how, s, r)
		}
	}
	press := func(in region, name message.ID) {
		t.Helper()
		found := pressesIn(w.frame.in(in), theme.Word(name))
		if len(found) != 1 || !found[0].Visible() {
			t.Fatalf("%d are called %s in region %d", len(found), name, in)
		}
		test.Tap(found[0])
	}
	w.window.Resize(fyne.NewSize(1024, 700))
	w.openStation(3)
	shows(true, false, "beside the tray")
	press(regionSection, "app.rods")
	shows(false, true, "its head pressed")
	press(regionRods, "app.section")
	shows(true, false, "the rods' head pressed")
	w.standRod(plan.Point{300, 300}, 20)
	shows(false, true, "a rod stood up")
	w.cutThere(section.Cutting{Of: section.CutPipe})
	shows(true, false, "cut along the pipe")
	w.sides.close()
	shows(true, true, "the tray closed")
}

// What a region shows has room in it, for every demo job in its own units and the other, at
// every width: what is wider than its region is cut off at its edge.
func TestWhatShowsHasRoom(t *testing.T) {
	onlyLooks(t)
	w, _ := openWindow(t, Options{})
	for _, d := range w.demos {
		for _, units := range []unit.System{unit.Metric, unit.Imperial} {
			j := d.Job
			j.Units = units
			w.begin(j)
			until(t, j.Name, func() bool {
				return w.change.Result.Stated.Name == j.Name && w.change.Result.Stated.Units == units && !w.pace.due
			})
			for _, size := range widths()[:8] {
				w.window.Resize(size)
				haveRoom(t, w, fmt.Sprintf("%s, %s, at %v", d.File, units, size))
			}
		}
	}
}

// haveRoom says which regions of a window that show need more room than they have.
func haveRoom(t *testing.T, w *mainWindow, at string) {
	t.Helper()
	for r, region := range w.frame.regions {
		need, has := region.MinSize(), w.frame.clips[r].Size()
		if w.frame.clips[r].Visible() && (need.Width > has.Width || need.Height > has.Height) {
			t.Errorf("%s: region %d needs %v and has %v", at, r, need, has)
		}
	}
}
