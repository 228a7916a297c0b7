// Package command is Underfall's command line.
package command

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"text/tabwriter"

	"underfall/app/store"
	"underfall/app/version"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

// usualSamples are as many builds as the answer of check is counted from.
const usualSamples = 2000

// Exit codes of check.
const (
	exitClean = 0 // nothing stops the job
	exitStops = 1 // findings stop the job
	exitBad   = 2 // bad input
)

// Run carries out the arguments and gives the exit code.
func Run(args []string, out, errs io.Writer) int {
	out, errs = plain{out}, plain{errs}
	shelf, err := words.Load(assets.Words())
	if err != nil {
		fmt.Fprintln(errs, err)
		return exitBad
	}
	b := shelf.Book(words.Wanted(os.Getenv), unit.Metric, func(m message.Message) { fmt.Fprintf(errs, "no words for %s\n", m) })
	if broken := shelf.Fault(); !broken.IsZero() {
		fmt.Fprintln(errs, b.Say(broken))
	}
	if len(args) > 0 {
		switch args[0] {
		case "check":
			return check(args[1:], b, out, errs)
		case "render":
			return inBuild(pictures(), "cli.no-render", args[1:], b, errs)
		case "draw":
			return draw(args[1:], b, errs)
		case "order":
			return order(args[1:], b, out, errs)
		case "sheets":
			return sheets(args[1:], b, out, errs)
		case "parts":
			return parts(args[1:], b, out, errs)
		case "notices", "version", "-version", "--version", "help", "-h", "-help", "--help":
			if len(args) > 1 {
				tell(errs, b, message.Fail("cli.takes-nothing", message.Name("command", args[0]), message.Name("given", args[1])))
				return exitBad
			}
		}
		switch args[0] {
		case "notices":
			fmt.Fprint(out, assets.NoticesText())
			return exitClean
		case "version", "-version", "--version":
			fmt.Fprintln(out, version.Of(b))
			return exitClean
		case "help", "-h", "-help", "--help":
			fmt.Fprintln(out, b.Text("cli.usage"))
			return exitClean
		}
	}
	return inBuild(opens(), "cli.no-window", args, b, errs)
}

// doing carries out the arguments of a command.
type doing func(args []string, b words.Book, errs io.Writer) int

// inBuild does what only a build with a window can; another says that it cannot.
func inBuild(do doing, cannot message.ID, args []string, b words.Book, errs io.Writer) int {
	if do == nil {
		tell(errs, b, message.Fail(cannot))
		return exitBad
	}
	return do(args, b, errs)
}

// options reads the options of a command; what is wrong with them is told with how
// the program is used.
func options(command string, b words.Book, errs io.Writer) *flag.FlagSet {
	flags := flag.NewFlagSet(command, flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.Usage = func() { fmt.Fprintln(errs, b.Text("cli.usage")) }
	return flags
}

// tell prints what went wrong.
func tell(errs io.Writer, b words.Book, err error) { fmt.Fprintln(errs, b.Say(message.OfError(err))) }

// plain takes out of what is printed whatever would steer a terminal or turn the
// direction of writing: names come from files that anybody may have written.
type plain struct{ to io.Writer }

// Write takes whole characters, as fmt and tabwriter give them.
func (p plain) Write(data []byte) (int, error) {
	lines := strings.Split(string(data), "\n")
	for i, line := range lines {
		lines[i] = store.Plain(line)
	}
	if _, err := io.WriteString(p.to, strings.Join(lines, "\n")); err != nil {
		return 0, err
	}
	return len(data), nil
}

// inUnitsOf is a book in the units of a job, where they could be read.
func inUnitsOf(j job.Job, b words.Book) words.Book {
	if j.Units == "" {
		return b
	}
	return b.In(j.Units)
}

func check(args []string, b words.Book, out, errs io.Writer) int {
	flags := options("check", b, errs)
	asJSON := flags.Bool("json", false, "")
	samples := flags.Int("chances", 0, "") // listed; the answer is counted in any case
	listRuns := flags.Bool("runs", false, "")
	with, config := flags.String("with", "", ""), flags.String("config", "", "")
	files, ok := parseMixed(flags, args)
	if !ok {
		return exitBad
	}
	const mostSamples = 1_000_000
	if len(files) != 1 || *samples < 0 || *samples > mostSamples || *with != "" && (*samples > 0 || *listRuns) || *asJSON && *listRuns {
		fmt.Fprintln(errs, b.Text("cli.usage"))
		return exitBad
	}
	r, err := evaluated(files[0])
	b = inUnitsOf(r.Stated, b)
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if *with != "" {
		return checkWith(r, *with, *config, *asJSON, b, out, errs)
	}
	if *listRuns {
		return checkRuns(r, *config, b, out, errs)
	}
	n := *samples
	if n == 0 {
		n = usualSamples
	}
	chances, err := chance.Count(context.Background(), r.Levelled, r.Findings, n, chance.Seed)
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	x, err := unknown.Explore(context.Background(), r)
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	counted := &counting{chances, n, *samples > 0}
	if *asJSON {
		err = printJSON(out, r, counted, &x, b)
	} else {
		err = printText(out, r, counted, &x, b)
	}
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if x.Answer(r.Answer(nil)).Standing == geometry.Stops {
		return exitStops
	}
	return exitClean
}

// escaped is JSON with what would steer a terminal written as its number, so that
// it is shown but still meant.
func escaped(data []byte) string {
	var b strings.Builder
	for _, r := range string(data) {
		if r != '\n' && store.Steers(r) {
			fmt.Fprintf(&b, `\u%04x`, r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// round to a thousandth of a millimetre.
func round(mm float64) float64 { return math.Round(mm*1e3) / 1e3 }

func round6(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func printText(out io.Writer, r geometry.Result, counted *counting, x *unknown.Exploration, b words.Book) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	answer := x.Answer(r.Answer(counted.chances()))
	fmt.Fprintf(w, "%s – %s\n", b.Text(answer.Standing.Name()), b.Say(answer.Headline()))
	fmt.Fprintf(w, "%s (%s)\n", store.Plain(r.Settled.Name), b.Text(r.Pack.Name()))
	for _, m := range answer.Lines() {
		fmt.Fprintf(w, "  %s\n", b.Say(m))
	}
	printPossible(w, &r.Stated, x, b)
	fmt.Fprintln(w)
	for _, m := range answer.HeightLines(r) {
		fmt.Fprintf(w, "%s\n", b.Say(m))
	}
	fmt.Fprintln(w)
	fmt.Fprintf(w, "%s\n", b.Say(message.Of("cli.levels", message.In("over", message.Of(r.NameOf(geometry.OverStructure))))))
	for _, l := range r.Schedule {
		spread := ""
		if l.Kind() != buildup.IsFall && l.Worst > 0 {
			spread = b.Say(message.Of("levels.spread", message.Layer("worst", l.Worst), message.Layer("statistical", l.Statistical)))
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\n", b.Say(l.Message()), b.Value(l.Said()), spread)
		if l.ID.Of != buildup.TileAtDrain && l.ID.Of != buildup.RoomFloor {
			continue // it is made of the same as one of them
		}
		for _, line := range l.LayerLines() {
			fmt.Fprintf(w, "    %s\t\t\n", b.Say(line))
		}
	}
	fmt.Fprintf(w, "\n%s\n", b.Text("sealing.heading"))
	for _, m := range r.Sealing.Lines() {
		fmt.Fprintf(w, "  %s\n", b.Say(m))
	}
	if cut := r.Cutting().Lines(); len(cut) > 0 {
		fmt.Fprintf(w, "\n%s\n", b.Text("cutting.heading"))
		for _, m := range cut {
			fmt.Fprintf(w, "  %s\n", b.Say(m))
		}
	}
	boards, err := r.Boarding()
	if err != nil {
		return err
	}
	if lines := boards.Lines(); len(lines) > 0 {
		fmt.Fprintf(w, "\n%s\n", b.Text("boarding.heading"))
		for _, m := range lines {
			fmt.Fprintf(w, "  %s\n", b.Say(m))
		}
	}
	printCards(w, r, answer, counted.listed, b)
	printCautions(w, r, b)
	fmt.Fprintf(w, "\n%s\n", b.Text("app.underfall-informs-it-does-not-certify"))
	return w.Flush()
}

// printCards lists what is wrong, cause by cause, and later what may come to be.
func printCards(w io.Writer, r geometry.Result, answer geometry.Answer, later bool, b words.Book) {
	fmt.Fprintf(w, "\n%s\n", b.Text("cli.findings"))
	for _, c := range answer.Cards {
		for i, p := range c.Places {
			fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", severityOf(c, i, b), b.Say(p.Rule.Heading()), b.Say(p.Message()), b.Say(p.Rule.Source.Message()))
		}
	}
	for _, c := range r.Contradictions {
		fmt.Fprintf(w, "  %s\n", b.Say(c.Message()))
	}
	for _, i := range r.DoNow {
		fmt.Fprintf(w, "  %s\n", b.Say(i.Message()))
	}
	if !later || len(answer.Later) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", b.Text("cli.chances"))
	for _, c := range answer.Later {
		for i, p := range c.Places {
			fmt.Fprintf(w, "  %s\t%s\t%s\t%s\t%s\n", severityOf(c, i, b), b.Say(p.Rule.Heading()),
				b.Say(p.Measurement.Message()), b.Say(p.Risk.Chance()), b.Say(p.Risk.From()))
		}
	}
}

// severityOf is a place's severity in words; nothing where it is that of the card, which stands
// before the card's first place.
func severityOf(c geometry.Card, place int, b words.Book) string {
	severity := c.Places[place].Rule.Severity
	if place > 0 && severity == c.Severity() {
		return ""
	}
	return b.Text(severity.Name())
}

// printCautions lists the standing cautions by the stage of work in which they bite.
func printCautions(w io.Writer, r geometry.Result, b words.Book) {
	fmt.Fprintf(w, "\n%s\n", b.Text("cli.cautions"))
	var stage rule.Stage
	for _, c := range r.Cautions {
		if c.Rule.Stage != stage {
			stage = c.Rule.Stage
			fmt.Fprintf(w, "  %s\n", b.Text(stage.Name()))
		}
		severity := ""
		if c.Rule.Severity == rule.Licensed {
			severity = b.Text(c.Rule.Severity.Name())
		}
		fmt.Fprintf(w, "    %s\t%s\t%s\n", b.Say(c.Rule.Heading()), severity, b.Say(c.Rule.Source.Message()))
	}
}
