package command

import (
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
	"underfall/geometry/price"
)

// sheets puts a job on paper: a PDF for each sheet, in a folder.
func sheets(args []string, b words.Book, out, errs io.Writer) int {
	q, err := sheetsAsked(args, b, errs)
	return withResult(q.job, err, b, errs, func(r geometry.Result) error { return q.write(r, b, out, errs) })
}

// sheetsRequest is what sheets was asked for.
type sheetsRequest struct {
	job, folder string
	kinds       []sheet.Kind
	paper       *sheet.Paper // nil for the one that is usual where the job is
	prices      string       // the file of the user's prices; empty for none
	customer    string
	address     string // of the job
	number      string // of its order
	until       string // how long a quote holds
	by, logo    string // who makes the sheets, and the file of their logo; empty for none
	plain       bool   // without a picture
	costs       bool   // on the customer's sheet as well
}

// sheetsAsked reads the arguments of sheets.
func sheetsAsked(args []string, b words.Book, errs io.Writer) (q sheetsRequest, err error) {
	flags := options("sheets", b, errs)
	flags.StringVar(&q.folder, "o", ".", "")
	paper, which := flags.String("paper", "", ""), flags.String("sheet", "", "")
	flags.StringVar(&q.prices, "prices", "", "")
	flags.StringVar(&q.customer, "customer", "", "")
	flags.StringVar(&q.address, "address", "", "")
	flags.StringVar(&q.number, "number", "", "")
	flags.StringVar(&q.until, "until", "", "")
	flags.StringVar(&q.by, "by", "", "")
	flags.StringVar(&q.logo, "logo", "", "")
	flags.BoolVar(&q.plain, "without-picture", false, "")
	flags.BoolVar(&q.costs, "with-costs", false, "")
	jobs, ok := parseMixed(flags, args)
	switch {
	case !ok:
		return q, flag.ErrHelp
	case len(jobs) != 1:
		return q, message.Fail("cli.one-job")
	}
	q.job, q.kinds = jobs[0], sheet.Kinds()
	if q.prices != "" {
		q.kinds = append(q.kinds, sheet.Quote)
	}
	if *which != "" {
		if q.kinds = []sheet.Kind{sheet.Kind(*which)}; !slices.Contains(sheet.AllKinds(), q.kinds[0]) {
			return q, message.Fail("sheet.kind-unknown", message.Name("given", *which))
		}
	}
	if slices.Contains(q.kinds, sheet.Quote) && q.prices == "" {
		return q, message.Fail("sheet.no-prices")
	}
	if *paper != "" {
		var of sheet.Paper
		of, err = sheet.PaperOf(*paper)
		q.paper = &of
	}
	return q, err
}

// write makes the sheets and names the files that it wrote.
func (q sheetsRequest) write(r geometry.Result, b words.Book, out, errs io.Writer) error {
	asked := sheet.Asked{Paper: sheet.UsualPaper(r.Settled.Region), Made: time.Now(), Customer: q.customer,
		Address: q.address, Number: q.number, Until: q.until, By: q.by, State: r.Stated.State, Costs: q.costs}
	if q.paper != nil {
		asked.Paper = *q.paper
	}
	if q.prices != "" {
		var err error
		if asked.Prices, err = pricesOf(q.prices, b, errs); err != nil {
			return err
		}
		asked.Prices = asked.Prices.In(r.Settled.Region)
	}
	if q.logo != "" {
		var err error
		if asked.Logo, err = sheet.ReadLogo(q.logo); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(q.folder, 0o755); err != nil {
		return message.Wrap(err, "sheet.folder", message.Name("folder", store.Plain(q.folder)))
	}
	chances, err := chance.Count(context.Background(), r.Levelled, r.Findings, usualSamples, chance.Seed)
	if err != nil {
		return err
	}
	if slices.Contains(q.kinds, sheet.Customer) && !q.plain {
		asked.Picture, asked.Samples = photograph(r, b, errs)
	}
	name := strings.TrimSuffix(filepath.Base(q.job), filepath.Ext(q.job))
	files, err := sheet.Save(filepath.Join(q.folder, name), q.kinds, r, r.Answer(&chances), asked, b)
	for _, file := range files {
		fmt.Fprintln(out, file)
	}
	return err
}

// pricesOf reads a list of prices; rows that cannot be used are told and left out.
func pricesOf(path string, b words.Book, errs io.Writer) (price.List, error) {
	l, bad, err := sheet.ReadPrices(path)
	for _, x := range bad {
		fmt.Fprintln(errs, b.Say(message.Of("price.line", message.No("line", x.Line), message.In("why", x.Why))))
	}
	return l, err
}
