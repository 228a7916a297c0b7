package app

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/paint"
	"underfall/app/still"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/viewer"
)

// pictureSizes are the sizes a still is offered in.
func pictureSizes() []image.Point {
	return []image.Point{{1920, 1080}, {3840, 2160}, {1280, 800}, {2000, 2000}}
}

// stillSamples is how often a still is refined: clean on any screen.
const stillSamples = 96

// turntableSteps is into how many pictures a turn is divided.
const turntableSteps = 36

// takePicture asks for a size and a file, and draws the picture as it is looked
// at.
func (w *mainWindow) takePicture() {
	if w.view.frame.Scene == nil {
		w.say(theme.Word("app.there-is-no-3d-picture-to"), true)
		return
	}
	var sizes []string
	for _, s := range pictureSizes() {
		sizes = append(sizes, fmt.Sprintf("%d × %d", s.X, s.Y))
	}
	size := control.NewSelect(control.NewKeys(), sizes, nil)
	size.SetSelectedIndex(0)
	clear := widget.NewCheck(theme.Word("app.without-background"), nil)
	turn := widget.NewCheck(theme.Word("app.all-round", message.N("n", turntableSteps)), nil)
	form := container.NewVBox(widget.NewLabel(theme.Word("app.size-in-pixels")), size, clear, turn)
	dialog.ShowCustomConfirm(theme.Word("app.take-a-picture"), theme.Word("app.choose-a-file"), theme.Word("app.cancel"), form, func(ok bool) {
		if !ok {
			return
		}
		s := pictureSizes()[size.SelectedIndex()]
		frames := w.pictureFrames(s, clear.Checked, turn.Checked)
		w.askWhere(saveDialog{title: theme.Word("app.save-the-picture"), ending: still.Ending, files: func(path string) []string {
			return pictureFiles(path, len(frames))
		}, write: func(path string, done func()) {
			done()
			w.remember(path)
			w.drawPictures(frames, path)
		}}, store.SafeName(w.desk.Job().Name, theme.Word("app.picture")))
	}, w.window)
}

// pictureFrames are the frames of a still, or of a turn, their cut faces still to
// be made.
func (w *mainWindow) pictureFrames(size image.Point, clear, turn bool) []viewer.Frame {
	f := w.view.now()
	f.Width, f.Height, f.Transparent, f.Chosen = size.X, size.Y, clear, ""
	if turn {
		return viewer.Turntable(f, turntableSteps)
	}
	return []viewer.Frame{f}
}

// pictureFiles are the files that so many pictures are written to.
func pictureFiles(path string, n int) []string {
	var files []string
	for i := range n {
		files = append(files, still.PictureFile(path, i, n))
	}
	return files
}

// drawPictures draws in the background, with progress and a way to stop.
func (w *mainWindow) drawPictures(frames []viewer.Frame, path string) {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	wait := dialog.NewCustom(theme.Word("app.drawing"), theme.Word("app.stop-2"), container.NewVBox(widget.NewLabel(filepath.Base(path)), bar), w.window)
	wait.SetOnClosed(cancel)
	wait.Resize(fyne.NewSize(420, 160))
	wait.Show()
	do, studio, r := w.sight.Do, w.view.engine.studio, w.view.result
	var err error
	w.guard.Run(viewer.PartStill, func() {
		err = studio.Stills(ctx, capped(frames, r), stillSamples,
			func(share float64) { do(func() { bar.SetValue(share) }) },
			func(i int, img *image.RGBA) error {
				return still.WritePNG(still.PictureFile(path, i, len(frames)), img)
			})
	}, func(sound bool) {
		cancel()
		do(func() {
			wait.Hide()
			switch {
			case !sound || errors.Is(err, viewer.ErrFault): // which has been told
			case errors.Is(err, context.Canceled):
				w.say(theme.Word("app.the-picture-was-stopped"), false)
			case err != nil:
				w.fail(err)
			case !frames[0].Fault().IsZero():
				w.say(theme.Word("app.picture-saved", message.Name("file", filepath.Base(path)))+" "+theme.Say(frames[0].Fault(), r.Settled.Units), true)
			default:
				w.say(theme.Word("app.picture-saved", message.Name("file", filepath.Base(path))), false)
			}
			w.log("picture %s: sound %v, %v", path, sound, err)
		})
	})
}

// capped are frames with the cut faces of a result, all cut in the same way.
func capped(frames []viewer.Frame, r geometry.Result) []viewer.Frame {
	out := append([]viewer.Frame(nil), frames...)
	if len(out) > 0 && out[0].Caps != nil {
		caps := viewer.NewCaps(r, out[0].Stage, viewer.HatchMM, out[0].Caps.Cuts...)
		for i := range out {
			out[i].Caps = caps
		}
	}
	return out
}

// Dimension draws the dimensions and levels of the cuts over a picture of it, on
// light paper unless the frame is dark.
func Dimension(img *image.RGBA, r geometry.Result, f viewer.Frame, b words.Book) error {
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		return err
	}
	style := theme.New(f.Dark, b).PaintStyle(math.Max(1, float64(f.Height)/800), r.Settled.Units, "")
	painter.Annotate(img, style, inSpace(r, f.Stage, f.Camera, f.Caps.Cuts, f.Width, f.Height)...)
	return nil
}
