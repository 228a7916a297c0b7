package tray_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/roomtest"
	"underfall/app/tray"
	"underfall/geometry/job"
)

// Nothing in the tray moves as one field is asked after the other: what there is to know of each has a place of its own.
func TestNoFieldMovesAsAnotherIsAsked(t *testing.T) {
	b := at(t, withEveryList(t))
	b.window.Resize(fyne.NewSize(trayWidth, 6000)) // so that nothing need be scrolled
	asked := 0
	for _, of := range append(job.Stations(), job.HowExact) {
		b.Open(of)
		roomtest.NewFrames().Settle(b.window.Content())
		places := b.places()
		for _, r := range b.rows() {
			if n, is := r.(*tray.NumberRow); is && r.There() {
				n.Field.Focus()
				roomtest.NewFrames().Settle(b.window.Content())
				asked++
			}
			for o, was := range places {
				if is := fyne.CurrentApp().Driver().AbsolutePositionForObject(o); is != was {
					t.Fatalf("%s: asked for a field another moves from %v to %v", of, was, is)
				}
			}
		}
	}
	if asked < 30 { // the first numbers of the seven stations
		t.Errorf("%d fields were asked", asked)
	}
}

// rows are the fields of the station, with those of its lists' things and tables.
func (b *bench) rows() (out []tray.Row) {
	for _, r := range b.Rows() {
		out = append(out, r)
		if table, is := r.(*tray.TableRow); is {
			for row := range table.Count() {
				for column := range table.In.Table.Columns {
					if c := table.Cell(row, column); c != nil {
						out = append(out, c)
					}
				}
			}
		}
	}
	return out
}

// places are where all fields stand that show.
func (b *bench) places() map[fyne.CanvasObject]fyne.Position {
	out := map[fyne.CanvasObject]fyne.Position{}
	for _, r := range b.rows() {
		if r.There() {
			out[r.Object()] = fyne.CurrentApp().Driver().AbsolutePositionForObject(r.Object())
		}
	}
	return out
}

// What there is to know of a field stands there whole, in the smallest window as well, with a drawing that can be read.
func TestHelpIsSeenWhole(t *testing.T) {
	ramped := job.New()
	ramped.Room.Edge = job.EdgeRamp
	for _, j := range []job.Job{job.New(), ramped, withEveryList(t)} {
		b := at(t, j)
		b.window.Resize(fyne.NewSize(trayWidth-6, 560)) // the tray in the least window, within its sheet
		b.helpIsSeen(t)
	}
}

// helpIsSeen asks for every field.
func (b *bench) helpIsSeen(t *testing.T) {
	light := func(key, path string) {
		if r := b.Row(key); r == nil || !r.There() {
			return
		}
		b.Light(path)
		roomtest.NewFrames().Settle(b.window.Content())
		if text, drawn, whole := b.Helped(); !whole {
			t.Errorf("of %s there is not room for %q, with a drawing %v", path, text, drawn)
		}
	}
	for _, in := range job.Inputs() {
		light(in.Key, in.Key)
		if in.Things == nil {
			continue
		}
		for _, e := range in.Things.Entries() {
			light(in.Key+" "+e.Key, in.Things.Path(0, e))
		}
	}
}

// Of a field that went while another station was open nothing is said any more when its own is opened again.
func TestHelpGoesWithItsField(t *testing.T) {
	j := job.New()
	j.Waste.Exit.Kind, j.Waste.Exit.Wall = job.ExitWall, 1
	b := at(t, j)
	b.Open(job.StationWayOut)
	about, _, _ := b.Helped()
	b.number(t, "waste.exit.offsetMM").Field.Focus()
	if text, _, _ := b.Helped(); text == about {
		t.Fatal("nothing is said of the field")
	}
	b.Open(job.StationShower)
	b.job.Waste.Exit.Kind = job.ExitFloor
	b.Show(b.job)
	b.Open(job.StationWayOut)
	if text, _, _ := b.Helped(); text != about {
		t.Errorf("the field has gone, and it is said of it %q", text)
	}
}
