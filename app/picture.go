package app

import (
	"context"
	"errors"
	"fmt"
	"image"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/space"
	"underfall/app/still"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/viewer"
)

// pictureSizes are the sizes a still is offered in.
func pictureSizes() []image.Point {
	return []image.Point{{1920, 1080}, {3840, 2160}, {1280, 800}, {2000, 2000}, {1080, 1920}}
}

// takePicture asks for a size and a file, and draws the picture as it is looked
// at.
func (w *mainWindow) takePicture() {
	if !w.view.Drawn() {
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
	turn := widget.NewCheck(theme.Word("app.all-round", message.N("n", space.TurnSteps)), nil)
	form := container.NewVBox(widget.NewLabel(theme.Word("app.size-in-pixels")), size, clear, turn)
	take := func(ok bool) {
		if !ok {
			return
		}
		s := pictureSizes()[size.SelectedIndex()]
		shot := w.view.Shot(s, clear.Checked, turn.Checked)
		w.askWhere(saveDialog{title: theme.Word("app.save-the-picture"), ending: still.Ending, files: func(path string) []string {
			return pictureFiles(path, shot.Pictures())
		}, write: func(path string, done func()) {
			done()
			w.rememberFolder(path)
			w.drawPictures(shot, path)
		}}, store.SafeName(w.desk.Job().Name, theme.Word("app.picture")))
	}
	w.showOver(dialog.NewCustomConfirm(theme.Word("app.take-a-picture"), theme.Word("app.choose-a-file"), theme.Word("app.cancel"), form,
		take, w.window))
}

// pictureFiles are the files that so many pictures are written to.
func pictureFiles(path string, n int) []string {
	var files []string
	for i := range n {
		files = append(files, still.PictureFile(path, i, n))
	}
	return files
}

// beingDrawn is what is shown while pictures are drawn: how far they are, with a way to stop them.
type beingDrawn struct {
	ctx  context.Context     // ends when they are stopped
	tell func(share float64) // how much is done, from any goroutine
	end  func()              // takes it away
}

// waitForPictures shows it over the window, with what they are for; nothing else can be done meanwhile.
func (w *mainWindow) waitForPictures(about string) beingDrawn {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	d := dialog.NewCustom(theme.Word("app.drawing"), theme.Word("app.stop-2"), container.NewVBox(widget.NewLabel(about), bar), w.window)
	d.SetOnClosed(cancel)
	d.Resize(fyne.NewSize(420, 160))
	w.showOver(d)
	return beingDrawn{ctx, w.tellingOn(bar), d.Hide}
}

// tellDrawn shows it at the foot of the answer, while the window is worked in.
func (w *mainWindow) tellDrawn(what string) beingDrawn {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	stop := control.NewPress(w.keys, theme.Word("app.stop-2"), w.guard.Wrap(partWindow, cancel))
	stop.Small = true
	text := control.NewWrapped(theme.Word("app.drawing-of", message.Name("file", what))).Styled(theme.TextSecond, false, theme.Ink)
	card := control.NewCard(container.New(control.Column{Gap: theme.Space1}, text, container.NewBorder(nil, nil, nil, stop, bar)))
	w.stills.Add(card)
	w.stills.Show()
	w.settleLayout()
	return beingDrawn{ctx, w.tellingOn(bar), func() {
		cancel()
		w.stills.Remove(card)
		if len(w.stills.Objects) == 0 {
			w.stills.Hide() // which would stand off what is round it
		}
		w.settleLayout()
	}}
}

// unlessDrawing does something that ends the pictures being drawn, asking before when there are some.
func (w *mainWindow) unlessDrawing(f func()) {
	n := len(w.stills.Objects)
	if n == 0 {
		f()
		return
	}
	w.ask(theme.Word("app.drawing-still"), theme.Word("app.drawing-ends", message.N("n", n)),
		reply{theme.Word("app.close-now"), widget.DangerImportance, f},
		reply{theme.Word("app.go-on-drawing"), widget.MediumImportance, func() {}})
}

// tellingOn has a bar show how much is done.
func (w *mainWindow) tellingOn(bar *widget.ProgressBar) func(share float64) {
	return func(share float64) { w.sight.Do(func() { bar.SetValue(share) }) }
}

// drawPictures draws in the background, with progress and a way to stop; all else can be done meanwhile.
func (w *mainWindow) drawPictures(shot space.Shot, path string) {
	name := filepath.Base(path)
	drawing, units := w.tellDrawn(name), w.change.Result.Settled.Units
	var fault message.Message
	var err error
	var finished image.Image
	write := writePictures(path, shot.Pictures())
	w.guard.Run(viewer.PartStill, func() {
		fault, err = shot.Draw(drawing.ctx, drawing.tell, func(i int, img *image.RGBA) error {
			if shot.Finished() {
				finished = img
			}
			return write(i, img)
		})
	}, func(sound bool) {
		w.sight.Do(func() {
			drawing.end()
			switch {
			case !sound || errors.Is(err, viewer.ErrFault): // which has been told
			case errors.Is(err, context.Canceled):
				w.sayFor(saidFor, theme.Word("app.the-picture-was-stopped"))
			case err != nil:
				w.fail(err)
			case !fault.IsZero():
				w.say(theme.Word("app.picture-saved", message.Name("file", name))+" "+theme.Say(fault, units), true)
			default:
				w.say(theme.Word("app.picture-saved", message.Name("file", name)), false)
				if finished != nil {
					w.finished = finishedStill{shot, finished}
				}
			}
			w.log("picture %s: sound %v, %v", path, sound, err)
		})
	})
}

// writePictures writes each of so many pictures as it is drawn.
func writePictures(path string, n int) func(int, *image.RGBA) error {
	return func(i int, img *image.RGBA) error { return still.WritePNG(still.PictureFile(path, i, n), img) }
}
