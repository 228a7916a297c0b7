//go:build !nowindow

package command

import (
	"context"
	"flag"
	"fmt"
	"image"
	"io"
	"path/filepath"
	"slices"
	"time"

	"underfall/app/guard"
	"underfall/app/sheet"
	"underfall/app/space"
	"underfall/app/still"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// Bounds of what may be asked for.
const (
	mostSamples   = 4096
	mostTurntable = 720
)

// request is what render was asked for.
type request struct {
	frame     viewer.Frame
	view      viewer.View
	cut       string
	light     job.LightKind // empty for the job's
	hour      float64       // 0 for the job's
	wet       *bool         // nil for the job's
	samples   int
	turntable int
	dimension bool
	file      string
	job       string
}

// render draws still pictures of a job without a window.
func render(args []string, b words.Book, errs io.Writer) int {
	q, err := renderRequest(args, b, errs)
	return withResult(q.job, err, b, errs, func(r geometry.Result) error { return q.draw(r, b, errs) })
}

// renderRequest reads the arguments of render.
func renderRequest(args []string, b words.Book, errs io.Writer) (request, error) {
	q := request{frame: viewer.Frame{Stage: buildup.StageTile}}
	f := &q.frame
	flags := options("render", b, errs)
	flags.StringVar(&q.file, "o", "underfall.png", "")
	view := flags.String("view", "corner", "")
	size := flags.String("size", "1600x1000", "")
	look := flags.String("look", "finished", "")
	light := flags.String("light", "", "")
	flags.Float64Var(&q.hour, "hour", 0, "")
	flags.StringVar(&q.cut, "cut", "", "")
	flags.IntVar(&q.samples, "samples", 64, "")
	stage := flags.Int("stage", int(buildup.StageTile), "")
	flags.Float64Var(&f.Apart, "apart", 0, "")
	wet := flags.Bool("wet", false, "")
	flags.BoolVar(&f.Dark, "dark", false, "")
	flags.BoolVar(&f.Transparent, "transparent", false, "")
	flags.BoolVar(&q.dimension, "dimensions", false, "")
	flags.IntVar(&q.turntable, "turntable", 0, "")
	jobs, ok := parseMixed(flags, args)
	switch {
	case !ok:
		return q, flag.ErrHelp
	case len(jobs) != 1:
		return q, message.Fail("cli.one-job")
	}
	q.job = jobs[0]
	flags.Visit(func(given *flag.Flag) {
		if given.Name == "wet" {
			q.wet = wet
		}
	})
	var err error
	if f.Width, f.Height, err = pictureSize(*size); err != nil {
		return q, err
	}
	looks := map[string]viewer.Look{"finished": viewer.LookFinished, "technical": viewer.LookTechnical,
		"through": viewer.LookThrough, "heights": viewer.LookHeights}
	var known bool
	if f.Look, known = looks[*look]; !known {
		return q, message.Fail("cli.look-unknown", message.Name("given", *look))
	}
	if q.light = job.LightKind(*light); *light != "" && !job.LightKinds().Has(q.light) {
		return q, message.Fail("cli.light-unknown", message.Name("given", *light))
	}
	if q.view = viewer.View(*view); !slices.Contains(viewer.Views(), q.view) {
		return q, message.Fail("cli.view-unknown", message.Name("given", *view))
	}
	if q.view == viewer.ViewCut && q.cut == "" {
		q.cut = "drain"
	}
	if !slices.Contains([]string{"", "drain", "run", "corner"}, q.cut) {
		return q, message.Fail("cli.cut-unknown", message.Name("given", q.cut))
	}
	if f.Stage, err = stageOf(*stage); err != nil {
		return q, err
	}
	counted := q.samples >= 1 && q.samples <= mostSamples && q.turntable >= 0 && q.turntable <= mostTurntable
	lit := q.hour == 0 || q.hour >= job.FirstHour && q.hour <= job.LastHour
	if !(f.Apart >= 0 && f.Apart <= 1) || !counted || !lit {
		return q, message.Fail("cli.out-of-range", message.No("samples", mostSamples), message.No("pictures", mostTurntable),
			message.No("first", job.FirstHour), message.No("last", job.LastHour))
	}
	return q, nil
}

// cuts are the planes asked for.
func (q request) cuts(r geometry.Result) []solid.Cut {
	switch q.cut {
	case "drain":
		return []solid.Cut{section.ThroughDrain(r)}
	case "run":
		return []solid.Cut{section.AlongRun(r)}
	case "corner":
		c := section.Corner(r)
		return c[:]
	}
	return nil
}

// lit is the frame in the light and wet or dry as a result's job is shown, or as was asked for.
func (q request) lit(r geometry.Result) viewer.Frame {
	f, shown := q.frame, r.Settled.Shown()
	if f.Light, f.Wet = shown.Light, shown.Wet; q.light != "" {
		f.Light.Kind = q.light
	}
	if q.hour != 0 {
		f.Light.Hour = q.hour
	}
	if q.wet != nil {
		f.Wet = *q.wet
	}
	return f
}

// draw draws a result and writes, telling on errs how far it is.
func (q request) draw(r geometry.Result, b words.Book, errs io.Writer) error {
	return q.each(r, b, errs, func(i int, img *image.RGBA) error {
		return still.WritePNG(still.PictureFile(q.file, i, max(1, q.turntable)), img)
	})
}

// each draws a result and hands over picture by picture, telling on errs how far it is.
func (q request) each(r geometry.Result, b words.Book, errs io.Writer, take func(i int, img *image.RGBA) error) error {
	g := guard.New(func(f guard.Fault) { tellFault(errs, b, f, r.Stated) }, nil)
	f, cuts := q.lit(r), q.cuts(r)
	if !g.Do(viewer.PartStill, nil, func() {
		f.Scene = viewer.NewScene(r, nil)
		f.Camera = viewer.FreeView(f.Scene, q.view, r, float64(f.Width)/float64(f.Height), cuts...)
		if len(cuts) > 0 {
			f.Caps = viewer.NewCaps(r, f.Stage, viewer.HatchMM, cuts...)
		}
	}) {
		return viewer.ErrFault
	}
	if fault := f.Fault(); !fault.IsZero() {
		fmt.Fprintln(errs, b.Say(fault))
	}
	frames := []viewer.Frame{f}
	if q.turntable > 0 {
		frames = viewer.Turntable(f, q.turntable)
	}
	last := -1
	progress := func(share float64) {
		if tenth := int(10 * share); tenth > last && share < 1 {
			last = tenth
			fmt.Fprintf(errs, "%d %%\n", 10*tenth)
		}
	}
	studio := viewer.OpenStudio(g, func(error) {})
	defer studio.Close()
	err := studio.Stills(context.Background(), frames, q.samples, progress, func(i int, img *image.RGBA) error {
		if q.dimension && len(cuts) > 0 && f.Apart == 0 {
			if err := space.Dimension(img, r, frames[i], b); err != nil {
				return err
			}
		}
		return take(i, img)
	})
	return err
}

// photograph is a picture of the finished shower for a sheet, with how often each of its points was followed; nil where none could be
// drawn, which is told.
func photograph(r geometry.Result, b words.Book, errs io.Writer) (image.Image, int) {
	const samples = 24
	size := sheet.PictureSize()
	q := request{frame: viewer.Frame{Stage: buildup.StageTile, Width: size.X, Height: size.Y}, view: viewer.ViewPhoto, samples: samples}
	var picture image.Image
	if err := q.each(r, b, errs, func(_ int, img *image.RGBA) error {
		picture = img
		return nil
	}); err != nil {
		tell(errs, b, message.Wrap(err, "sheet.picture"))
	}
	return picture, samples
}

// tellFault prints a fault and where its report is.
func tellFault(errs io.Writer, b words.Book, f guard.Fault, j job.Job) {
	fmt.Fprintln(errs, b.Say(message.Of("cli.fault", message.In("part", message.Of(f.Part)), message.Name("reason", f.Reason))))
	folder := store.ConfigFolder("")
	if folder == "" {
		return
	}
	data, err := j.Marshal()
	if err != nil {
		data = nil
	}
	if path, err := guard.NewReports(filepath.Join(folder, guard.Folder)).Write(f, data, time.Now()); err != nil {
		tell(errs, b, err)
	} else {
		fmt.Fprintln(errs, b.Say(message.Of("fault.report", message.Name("file", path))))
	}
}
