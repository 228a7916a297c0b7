package command

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"runtime"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/viewer"
)

// mostPixels bounds a still picture.
const mostPixels = 7680 * 4320

// render draws a still picture of a job without a window.
func render(args []string, errs io.Writer) int {
	flags := flag.NewFlagSet("render", flag.ContinueOnError)
	flags.SetOutput(errs)
	file := flags.String("o", "underfall.png", "the picture's file")
	view := flags.String("view", "corner", "corner, plan, front or cut")
	size := flags.String("size", "1600x1000", "width and height in pixels")
	look := flags.String("look", "finished", "finished, technical or through")
	samples := flags.Int("samples", 64, "samples of soft light; more are smoother")
	dark := flags.Bool("dark", false, "dark background")
	transparent := flags.Bool("transparent", false, "no background")
	jobs, ok := parseMixed(flags, args)
	if !ok {
		return exitBad
	}
	fail := func(err error) int {
		fmt.Fprintln(errs, err)
		return exitBad
	}
	if len(jobs) != 1 {
		return fail(fmt.Errorf("render needs one job file"))
	}
	f := viewer.Frame{Stage: build.StageTile, Dark: *dark, Transparent: *transparent}
	if n, err := fmt.Sscanf(*size, "%dx%d", &f.Width, &f.Height); n != 2 || err != nil || f.Width < 16 || f.Height < 16 || f.Width*f.Height > mostPixels {
		return fail(fmt.Errorf("size %q: give width and height as 1600x1000, at most 7680x4320", *size))
	}
	looks := map[string]viewer.Look{"finished": viewer.LookFinished, "technical": viewer.LookTechnical, "through": viewer.LookThrough}
	var known bool
	if f.Look, known = looks[*look]; !known {
		return fail(fmt.Errorf("look %q is not known: use finished, technical or through", *look))
	}
	switch viewer.View(*view) {
	case viewer.ViewCorner, viewer.ViewPlan, viewer.ViewFront, viewer.ViewCut:
	default:
		return fail(fmt.Errorf("view %q is not known: use corner, plan, front or cut", *view))
	}
	r, err := evaluated(jobs[0])
	if err != nil {
		return fail(err)
	}
	picture, err := still(r, f, viewer.View(*view), *samples)
	if err != nil {
		return fail(err)
	}
	if err := writePNG(*file, picture); err != nil {
		return fail(err)
	}
	return exitClean
}

// still draws the picture with the given number of samples.
func still(r geometry.Result, f viewer.Frame, v viewer.View, samples int) (*image.RGBA, error) {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	renderer, err := viewer.NewRenderer()
	if err != nil {
		return nil, fmt.Errorf("drawing %q: %w", r.Job.Name, err)
	}
	defer renderer.Close()
	cut := section.ThroughDrain(r)
	f.Scene = viewer.NewScene(r)
	f.Camera = viewer.CameraFor(v, r, &cut, float64(f.Width)/float64(f.Height))
	if v == viewer.ViewCut {
		const hatchMM = 11
		f.Caps = viewer.NewCaps(r, cut, f.Stage, hatchMM)
	}
	var picture *image.RGBA
	for range max(1, min(samples, 1024)) {
		if picture, _, err = renderer.Refine(f); err != nil {
			return nil, fmt.Errorf("drawing %q: %w", r.Job.Name, err)
		}
	}
	return picture, nil
}

func writePNG(path string, picture image.Image) (err error) {
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	defer func() {
		if e := f.Close(); err == nil && e != nil {
			err = fmt.Errorf("writing the picture: %w", e)
		}
	}()
	if err := png.Encode(f, picture); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// evaluated reads and evaluates a job under its region's rules.
func evaluated(path string) (geometry.Result, error) {
	packs, err := assets.Rules()
	if err != nil {
		return geometry.Result{}, err
	}
	j, err := read(path)
	if err != nil {
		return geometry.Result{}, err
	}
	pack, ok := packs[j.Region]
	if !ok || j.Region == rule.CommonRegion {
		return geometry.Result{}, fmt.Errorf("region: there are no rules for %q", j.Region)
	}
	r := geometry.Evaluate(j, pack)
	if len(r.Problems) > 0 {
		return r, r.Problems
	}
	return r, nil
}

// parseMixed parses flags that may stand before or after the other arguments,
// which it gives back.
func parseMixed(flags *flag.FlagSet, args []string) (others []string, ok bool) {
	for len(args) > 0 {
		if err := flags.Parse(args); err != nil {
			return nil, false
		}
		if args = flags.Args(); len(args) > 0 {
			others = append(others, args[0])
			args = args[1:]
		}
	}
	return others, true
}

// read gets a job from a file, or standard input for "-".
func read(path string) (job.Job, error) {
	var data []byte
	var err error
	if path == "-" {
		data, err = io.ReadAll(os.Stdin)
	} else {
		data, err = os.ReadFile(path)
	}
	if err != nil {
		return job.Job{}, fmt.Errorf("reading the job: %w", err)
	}
	return job.Parse(data)
}
