package command

import (
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"underfall/app/sheet"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/guide"
	"underfall/geometry/message"
	"underfall/geometry/price"
	"underfall/geometry/source"
	"underfall/geometry/takeoff"
)

// order prints what a job takes to finish, as it is bought.
func order(args []string, b words.Book, out, errs io.Writer) int {
	flags := options("order", b, errs)
	asJSON, prices := flags.Bool("json", false, ""), flags.String("prices-out", "", "")
	files, ok := parseMixed(flags, args)
	if !ok {
		return exitBad
	}
	if len(files) != 1 {
		tell(errs, b, message.Fail("cli.one-job"))
		return exitBad
	}
	return withResult(files[0], nil, b, errs, func(r geometry.Result) error {
		list, err := sheet.Takeoff(&r)
		if err != nil {
			return err
		}
		if *prices != "" {
			return keepPrices(*prices, &list, inUnitsOf(r.Stated, b), errs)
		}
		write := printOrder
		if *asJSON {
			write = printOrderJSON
		}
		return write(out, r, list, inUnitsOf(r.Stated, b))
	})
}

// printOrder prints the list group by group: what, how much, what to buy and what is left over, and
// under each how that was worked out.
func printOrder(out io.Writer, r geometry.Result, list takeoff.Takeoff, b words.Book) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "%s: %s\n", b.Text("order.heading"), store.Plain(r.Settled.Name))
	if r.Stops() {
		fmt.Fprintf(w, "%s\n", b.Text("order.stops"))
	}
	if len(list.Lines) == 0 {
		fmt.Fprintf(w, "%s\n", b.Text("order.none"))
		return w.Flush()
	}
	var group takeoff.Group
	for i := range list.Lines {
		l := &list.Lines[i]
		if l.Group != group {
			group = l.Group
			fmt.Fprintf(w, "\n%s\t%s\t%s\t%s\n", b.Text(group.Name()), b.Text("order.column.needed"), b.Text("order.column.packs"), b.Text("order.column.left"))
		}
		packs, left := "", ""
		if l.Form != "" {
			packs = b.Say(l.Bought())
			left = b.Value(l.Left.Arg("left").Value)
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", store.Plain(b.Say(l.Item)), b.Value(l.Needed.Arg("needed").Value), packs, left)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(out, "\n%s\n", b.Text("order.how-heading"))
	for i := range list.Lines {
		l := &list.Lines[i]
		how := l.How
		if l.Source.Mark != source.Derived {
			how = append(how[:len(how):len(how)], message.Of("order.source", message.In("source", l.Source.Message())))
		}
		if len(how) == 0 {
			continue
		}
		fmt.Fprintf(out, "  %s\n", store.Plain(b.Say(l.Item)))
		for _, m := range how {
			fmt.Fprintf(out, "    %s\n", store.Plain(b.Say(m)))
		}
	}
	_, err := fmt.Fprintf(out, "\n%s\n", b.Text("order.note"))
	return err
}

// orderVersion is raised when what is printed changes its meaning or is taken away; what is added leaves it.
const orderVersion = 1

// reportOrder is what order prints as JSON. Amounts are in the unit of their measure: a number of
// things, mm, mm², kg, litres.
type reportOrder struct {
	Version int    `json:"version"`
	Name    string `json:"name"`
	// Stops tells that the job cannot be built as it is drawn.
	Stops bool              `json:"stops,omitempty"`
	Lines []reportOrderLine `json:"lines"`
}

type reportOrderLine struct {
	Group   takeoff.Group `json:"group"`
	ID      message.ID    `json:"id"` // of the item
	Item    string        `json:"item"`
	Measure guide.Measure `json:"measure"`
	Needed  float64       `json:"needed"`
	// Form and Holds are of a pack; none where it is sold as needed.
	Form  guide.Form `json:"form,omitempty"`
	Holds float64    `json:"holds,omitempty"`
	Packs int        `json:"packs,omitempty"`
	Left  float64    `json:"left,omitempty"`
	// Bars are the lengths that it is cut from, each with its pieces and what is left.
	Bars     []reportOrderBar `json:"bars,omitempty"`
	How      []string         `json:"how"`
	Source   string           `json:"source"`
	Verified source.Mark      `json:"verified"`
	Bodies   []string         `json:"bodies"`
}

type reportOrderBar struct {
	PiecesMM []float64 `json:"piecesMM"`
	LeftMM   float64   `json:"leftMM"`
}

func printOrderJSON(out io.Writer, r geometry.Result, list takeoff.Takeoff, b words.Book) error {
	report := reportOrder{Version: orderVersion, Name: r.Settled.Name, Stops: r.Stops(), Lines: []reportOrderLine{}}
	for i := range list.Lines {
		l := &list.Lines[i]
		line := reportOrderLine{
			Group: l.Group, ID: l.Item.ID, Item: b.Say(l.Item), Measure: l.Needed.Measure, Needed: round6(l.Needed.Value), Form: l.Form, Holds: round6(l.Holds.Value),
			Packs: l.Packs, Left: round6(l.Left.Value), How: []string{}, Source: b.Say(l.Source.Message()), Verified: l.Source.Mark, Bodies: []string{},
		}
		line.Bodies = append(line.Bodies, l.Bodies...)
		for _, m := range l.How {
			line.How = append(line.How, b.Say(m))
		}
		for _, bar := range l.Cutting.Bars {
			of := reportOrderBar{LeftMM: round(bar.LeftMM)}
			for _, mm := range bar.PiecesMM {
				of.PiecesMM = append(of.PiecesMM, round(mm))
			}
			line.Bars = append(line.Bars, of)
		}
		report.Lines = append(report.Lines, line)
	}
	return printIndented(out, report)
}

// keepPrices writes a list of prices to be filled in, with a row for everything that a job takes: those of a file that is there stay,
// what it lacks is added.
func keepPrices(path string, of *takeoff.Takeoff, b words.Book, errs io.Writer) error {
	var l price.List
	if _, err := os.Stat(path); err == nil {
		if l, err = pricesOf(path, b, errs); err != nil {
			return err
		}
	}
	return sheet.WritePrices(path, l, of, b.Say)
}
