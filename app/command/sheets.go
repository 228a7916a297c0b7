package command

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"underfall/app/sheet"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/message"
)

// sheets puts a job on paper: a PDF for each sheet, in a folder.
func sheets(args []string, b words.Book, out, errs io.Writer) int {
	q, err := sheetsAsked(args, b, errs)
	return withResult(q.job, err, b, errs, func(r geometry.Result) error { return q.write(r, b, out) })
}

// sheetsRequest is what sheets was asked for.
type sheetsRequest struct {
	job, folder string
	kinds       []sheet.Kind
	paper       *sheet.Paper // nil for the one that is usual where the job is
}

// sheetsAsked reads the arguments of sheets.
func sheetsAsked(args []string, b words.Book, errs io.Writer) (q sheetsRequest, err error) {
	flags := options("sheets", b, errs)
	flags.StringVar(&q.folder, "o", ".", "")
	paper, which := flags.String("paper", "", ""), flags.String("sheet", "", "")
	jobs, ok := parseMixed(flags, args)
	switch {
	case !ok:
		return q, flag.ErrHelp
	case len(jobs) != 1:
		return q, message.Fail("cli.one-job")
	}
	q.job, q.kinds = jobs[0], sheet.Kinds()
	if *which != "" {
		if q.kinds = []sheet.Kind{sheet.Kind(*which)}; !slices.Contains(sheet.Kinds(), q.kinds[0]) {
			return q, message.Fail("sheet.kind-unknown", message.Name("given", *which))
		}
	}
	if *paper != "" {
		var of sheet.Paper
		of, err = sheet.PaperOf(*paper)
		q.paper = &of
	}
	return q, err
}

// write makes the sheets and names the files that it wrote.
func (q sheetsRequest) write(r geometry.Result, b words.Book, out io.Writer) error {
	if err := os.MkdirAll(q.folder, 0o755); err != nil {
		return message.Wrap(err, "sheet.folder", message.Name("folder", store.Plain(q.folder)))
	}
	chances, err := chance.Count(context.Background(), r.Levelled, r.Findings, usualSamples, chance.Seed)
	if err != nil {
		return err
	}
	paper := sheet.UsualPaper(r.Settled.Region)
	if q.paper != nil {
		paper = *q.paper
	}
	answer, made := r.Answer(&chances), time.Now()
	for _, kind := range q.kinds {
		var data bytes.Buffer
		if err := sheet.Write(&data, r, answer, sheet.Asked{Kind: kind, Paper: paper, Made: made}, b); err != nil {
			return err
		}
		path := kind.File(filepath.Join(q.folder, strings.TrimSuffix(filepath.Base(q.job), filepath.Ext(q.job))))
		if _, err := store.Write(path, data.Bytes()); err != nil {
			return message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(path))))
		}
		fmt.Fprintln(out, path)
	}
	return nil
}
