package app

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// In the narrowest tray every field shows its whole label and its whole value, in every language
// and in one that is drawn out.
func TestLabelsFit(t *testing.T) {
	onlyLooks(t)
	for _, tag := range []string{words.British, words.American, words.MadeUp} {
		w, _ := openWindow(t, Options{})
		w.speak(tag)
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
			j.Floor.Kind, j.Base.Height, j.Base.BoardsMM, j.Room.Edge = job.FloorTimber, job.HeightChosen, []float64{20}, job.EdgeRamp
			j.Waste.Exit.Level = job.NotBelow(0)
			for _, l := range job.Lists() {
				l.Add(j)
			}
		}))
		w.showPanels()
		for _, at := range append(job.Stations(), job.HowExact) {
			w.tray.Row(job.At(at)[0].Key) // with its less used
			w.sides.openFields()
			panel := w.frame.in(regionTray)
			if need, has := panel.MinSize().Width, panel.Size().Width; need > has || has != measuresFor(mediumFrom, false).fields {
				t.Errorf("%s, %s: the panel needs %v and has %v", tag, at, need, has)
			}
			within(t, panel, tag+", "+string(at))
		}
		// With the help and the drawing of a field under it.
		into(w, numberField(t, w, "waste.gradient"))
		if panel := w.frame.in(regionTray); panel.MinSize().Width > panel.Size().Width {
			t.Errorf("%s: with a field's help the panel needs %v and has %v", tag, panel.MinSize().Width, panel.Size().Width)
		}
	}
}

// What stands around the drawings shows all of its words: in every language and in one that is drawn
// out, in the least window and in the usual one, for every worked example.
func TestNothingAroundTheDrawingsIsClipped(t *testing.T) {
	onlyLooks(t)
	for _, tag := range []string{words.British, words.American, words.MadeUp} {
		w, _ := openWindow(t, Options{})
		w.speak(tag)
		for i := range w.demos {
			if err := w.desk.Replace(w.demos[i].Job); err != nil {
				t.Fatal(err)
			}
			until(t, "the demo", func() bool { return w.change.Result.Settled.Name == w.demos[i].Job.Name })
			w.showPanels()
			for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
				w.window.Resize(size)
				for r, panel := range w.frame.regions {
					if need, has := panel.MinSize().Width, w.frame.clips[r].Size().Width; w.frame.clips[r].Visible() && need > has {
						t.Errorf("%s, %s at %v, region %d: needs %v and has %v", tag, w.demos[i].File, size.Width, r, need, has)
					}
				}
				for _, r := range []region{regionTop, regionAnswer, regionRail, regionReadout} {
					where := fmt.Sprintf("%s, %s at %v, region %d", tag, w.demos[i].File, size.Width, r)
					panel := w.frame.in(r)
					if need, has := panel.MinSize().Width, panel.Size().Width; need > has {
						t.Errorf("%s: needs %v and has %v", where, need, has)
					}
					within(t, panel, where)
				}
				if tag == words.MadeUp && size.Width < mediumFrom {
					continue // drawn out, a line on the rail is told in three there
				}
				// The rail does not scroll.
				rail := w.frame.in(regionRail)
				for _, o := range shownTexts(rail) {
					at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(rail))
					if foot := at.Y + o.MinSize().Height; foot > rail.Size().Height {
						t.Errorf("%s, %s at %v: “%s” on the rail reaches to %v of %v", tag, w.demos[i].File, size.Width, o.Text, foot, rail.Size().Height)
					}
				}
			}
		}
	}
}

// The showroom shows all of its words beside the picture, in every language, in one that is drawn out and with
// everything large.
func TestNothingInTheShowroomIsClipped(t *testing.T) {
	onlyLooks(t)
	for _, tag := range []string{words.British, words.American, words.MadeUp} {
		for _, large := range []bool{false, true} {
			w, _ := openWindow(t, Options{})
			w.speak(tag)
			w.setLarge(large)
			w.window.Resize(fyne.NewSize(1280, 800))
			w.openShowroom()
			settle(t)
			within(t, w.window.Content(), fmt.Sprintf("%s, large %v", tag, large))
			w.closeShowroom()
		}
	}
}

// shownTexts are the texts that show in an object.
func shownTexts(all fyne.CanvasObject) (out []*canvas.Text) {
	roomtest.EachShown(all, func(o fyne.CanvasObject) {
		if text, ok := o.(*canvas.Text); ok {
			out = append(out, text)
		}
	})
	return out
}

// within holds that all that shows in an object stands within its width.
func within(t *testing.T, all fyne.CanvasObject, where string) {
	t.Helper()
	d := fyne.CurrentApp().Driver()
	left, width := d.AbsolutePositionForObject(all).X, all.Size().Width
	roomtest.EachShownInto(all, func(o fyne.CanvasObject) bool {
		if text, ok := o.(*canvas.Text); ok {
			from := d.AbsolutePositionForObject(o).X - left
			if need := fyne.MeasureText(text.Text, text.TextSize, text.TextStyle).Width; from < 0 || from+need > width {
				t.Errorf("%s: “%s” reaches from %v to %v of %v", where, text.Text, from, from+need, width)
			}
		}
		_, entry := o.(*control.Entry) // its text is scrolled
		return !entry
	})
}
