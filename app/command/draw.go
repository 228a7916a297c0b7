package command

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"path/filepath"
	"strings"

	"underfall/app/still"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
)

// drawing is what draw was asked for.
type drawing struct {
	still.Request
	cut       cutRequest
	file, job string
}

// draw paints a drawing of a job into a picture, without a window.
func draw(args []string, b words.Book, errs io.Writer) int {
	q, err := drawingRequest(args, b, errs)
	return withResult(q.job, err, b, errs, func(r geometry.Result) error { return q.paint(r, b) })
}

// withResult evaluates the job of a request, if the request can be followed, and does with
// the result what was asked; what goes wrong is told. It gives the status to exit with.
func withResult(job string, wrong error, b words.Book, errs io.Writer, do func(geometry.Result) error) int {
	var r geometry.Result
	err := wrong
	if err == nil {
		r, err = evaluated(job)
	}
	if err == nil {
		err = do(r)
	}
	if err == nil {
		return exitClean
	}
	if !errors.Is(err, flag.ErrHelp) {
		tell(errs, inUnitsOf(r.Stated, b), err)
	}
	return exitBad
}

// drawingRequest reads the arguments of draw.
func drawingRequest(args []string, b words.Book, errs io.Writer) (q drawing, err error) {
	flags := options("draw", b, errs)
	flags.StringVar(&q.file, "o", "underfall.png", "")
	which := flags.String("drawing", "section", "")
	cut := flags.String("cut", "drain", "")
	turned := flags.Float64("turned", 0, "")
	size := flags.String("size", "1600x1000", "")
	stage := flags.Int("stage", int(buildup.StageTile), "")
	flags.BoolVar(&q.Dark, "dark", false, "")
	jobs, ok := parseMixed(flags, args)
	kind, known := map[string]still.Kind{"section": still.Section, "plan": still.Plan, "waste": still.Long,
		"bed": still.Bed, "boards": still.Boards}[*which]
	switch {
	case !ok:
		return q, flag.ErrHelp
	case len(jobs) != 1:
		return q, message.Fail("cli.one-job")
	case !known:
		return q, message.Fail("cli.drawing-unknown", message.Name("given", *which))
	}
	if q.cut, err = cutOf(*cut); err != nil {
		return q, err
	}
	q.cut.TurnedDeg = *turned
	q.job, q.Kind = jobs[0], kind
	if q.Width, q.Height, err = pictureSize(*size); err != nil {
		return q, err
	}
	q.Stage, err = stageOf(*stage)
	return q, err
}

// paint draws a result and writes the picture.
func (q drawing) paint(r geometry.Result, b words.Book) (err error) {
	if q.Cut, err = q.cut.in(r); err != nil {
		return err
	}
	switch ending := strings.ToLower(filepath.Ext(q.file)); ending {
	case still.EndingSVG, still.EndingPDF, still.EndingDXF:
		return q.write(r, b, ending)
	}
	img, err := still.Drawn(r, q.Request, b)
	if err != nil {
		return err
	}
	return still.WritePNG(q.file, img)
}

// write draws a result as vectors into the file.
func (q drawing) write(r geometry.Result, b words.Book, ending string) error {
	var data bytes.Buffer
	err := still.Written(&data, r, q.Request, b, ending)
	if err == nil {
		_, err = store.Write(q.file, data.Bytes())
	}
	if err != nil {
		return message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(q.file))))
	}
	return nil
}

// stageOf is the stage of a number.
func stageOf(n int) (buildup.Stage, error) {
	if s := buildup.Stage(n); s >= 0 && s < buildup.Stages {
		return s, nil
	}
	return 0, message.Fail("cli.stage-unknown", message.No("given", n), message.No("last", int(buildup.Stages-1)))
}
