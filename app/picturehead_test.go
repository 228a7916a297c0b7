package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/app/words"
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
