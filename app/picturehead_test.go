package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/job"
	"underfall/viewer"
)

// What stands over the picture has room, whatever is open and however large it is, in a language of longer
// words as well; nothing of it has to be scrolled to.
func TestThePicturesHeadHasRoom(t *testing.T) {
	onlyLooks(t)
	t.Setenv("UNDERFALL_LANGUAGE", words.MadeUp)
	eachOpening(t, regionPicture, func(w *mainWindow, at opening) {
		w.before = &sight.State{}
		w.showHead()
		settle(t)
		h := w.pictureHead.object
		for _, o := range h.Objects {
			if !o.Visible() {
				continue
			}
			if from := o.Position(); from.X < 0 || from.X+o.Size().Width > h.Size().Width+0.5 {
				t.Errorf("%v: %T stands at %v, %v wide, of %v", at, o, from.X, o.Size().Width, h.Size().Width)
			}
			if p, ok := o.(*control.Press); ok && at.large && o.Size().Height < theme.LargeHeight {
				t.Errorf("%q is %v high", p.Text, o.Size().Height)
			}
		}
		if s := w.stage.Size(); s.Width+0.5 < w.stage.MinSize().Width {
			t.Errorf("%v: the stages have %v, they need %v", at, s.Width, w.stage.MinSize().Width)
		}
		w.stay()
	})
}

// The two ways to look that are wanted most are marked while it is looked so, until the camera is moved by
// hand; from above nothing is cut away.
func TestTheHeadShowsHowItIsLooked(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.theme.SetStill(true)
	until(t, "the job", func() bool { return !w.replaced })
	w.view.Resize(fyne.NewSize(460, 270))
	settle(t)
	h := w.pictureHead
	marks := func(what string, above, cut bool) {
		t.Helper()
		settle(t)
		if h.fromAbove.Chosen != above || h.atCut.Chosen != cut {
			t.Errorf("%s: from above %v, at the cut %v", what, h.fromAbove.Chosen, h.atCut.Chosen)
		}
	}
	marks("at first", false, true)
	h.fromAbove.OnPressed()
	marks("from above", true, false)
	if w.sight.CutOn || w.sight.Camera.Pitch < 1.5 {
		t.Error("from above something is cut away, or it is not looked from above")
	}
	h.atCut.OnPressed()
	marks("at the cut", false, true)
	w.view.Turn(0.2, 0)
	marks("turned", false, false)
	w.plainKey(&fyne.KeyEvent{Name: fyne.Key2})
	marks("by its key", false, true)
	if w.sight.View != viewer.ViewCut {
		t.Error("key 2 does not look at the cut")
	}
}

// The light that is chosen for the picture is the job's, drags of the hour are undone as one, and the hour is not asked
// for where it does not count.
func TestTheLightIsKeptInTheJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	light := w.settings.light
	light.show(w.desk.Job())
	if light.hour.Hidden || !strings.Contains(light.says.Text, "11:00") {
		t.Errorf("by day the hour is hidden %v: %q", light.hour.Hidden, light.says.Text)
	}
	light.hour.OnChanged(8)
	light.hour.OnChanged(9.5)
	light.hour.OnChangeEnded(9.5)
	if got := w.desk.Job().Lit(); got != (job.Light{Kind: job.LightDay, Hour: 9.5}) || !strings.Contains(light.says.Text, "9:30") {
		t.Errorf("%v, said as %q", got, light.says.Text)
	}
	light.kinds.OnChosen(string(job.LightEvening))
	if got := w.desk.Job().Lit().Kind; got != job.LightEvening || !light.hour.Hidden || light.kinds.Chosen() != string(job.LightEvening) {
		t.Errorf("%s is kept, the hour hidden %v", got, light.hour.Hidden)
	}
	w.desk.Undo()
	w.desk.Undo()
	if w.desk.Job().Picture != nil {
		t.Errorf("undone it is %v", w.desk.Job().Lit())
	}
}

// Whether the floor is shown wet is the job's as well: the showroom takes it from there and leaves it there, as do undo and the tools.
func TestAWetFloorIsKeptInTheJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return !w.replaced })
	shown := func(wet bool) func() bool { return func() bool { return w.change.Result.Settled.Shown().Wet == wet } }
	w.settings.wet.SetChecked(true)
	until(t, "a wet floor", shown(true))
	w.openShowroom()
	w.closeShowroom()
	if !w.desk.Job().Shown().Wet {
		t.Error("the showroom dries the floor")
	}
	w.desk.Undo()
	until(t, "a dry floor", shown(false))
	more := w.pictureHead.object.Objects[len(w.pictureHead.object.Objects)-1].(*control.Press)
	more.OnPressed()
	if w.settings.wet.Checked || w.desk.Job().Picture != nil {
		t.Errorf("undone, the tool shows it wet %v, kept is %v", w.settings.wet.Checked, w.desk.Job().Picture)
	}
	w.closePopUp()
}

// What else can be set about the picture opens beside it, so that what it changes is seen, and all of it is in the window.
func TestThePicturesMenuStandsBesideIt(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return !w.replaced })
	for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(1920, 1080)} {
		w.sides.close()
		w.window.Resize(size)
		settle(t)
		more := w.pictureHead.object.Objects[len(w.pictureHead.object.Objects)-1].(*control.Press)
		more.OnPressed()
		at, high := w.popped.Content.Position(), w.popped.Content.Size()
		from := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.viewHolder)
		whole := w.viewHolder.Size()
		wide := min(at.X+high.Width, from.X+whole.Width) - max(at.X, from.X)
		tall := min(at.Y+high.Height, from.Y+whole.Height) - max(at.Y, from.Y)
		if wide > 0 && tall > 0 {
			t.Errorf("%v: %v × %v of the picture is covered", size, wide, tall)
		}
		if at.X < 0 || at.Y < 0 || at.X+high.Width > size.Width || at.Y+high.Height > size.Height {
			t.Errorf("%v: it stands at %v, %v", size, at, high)
		}
		w.closePopUp()
	}
}
