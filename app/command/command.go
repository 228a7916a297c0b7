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

	"underfall/app"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/source"
	"underfall/geometry/stage"
	"underfall/geometry/unit"
)

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
			return render(args[1:], b, errs)
		case "draw":
			return draw(args[1:], b, errs)
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
			fmt.Fprintln(out, app.Version(b))
			return exitClean
		case "help", "-h", "-help", "--help":
			fmt.Fprintln(out, b.Text("cli.usage"))
			return exitClean
		}
	}
	return window(args, b, errs)
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

func window(args []string, b words.Book, errs io.Writer) int {
	flags := options("underfall", b, errs)
	var o app.Options
	var logFile, size string
	flags.BoolVar(&o.Dark, "dark", false, "")
	flags.StringVar(&size, "size", "", "")
	flags.StringVar(&logFile, "log", "", "")
	flags.StringVar(&o.ConfigFolder, "config", "", "")
	files, ok := parseMixed(flags, args)
	switch {
	case !ok:
		return exitBad
	case len(files) > 1:
		tell(errs, b, message.Fail("cli.one-job"))
		return exitBad
	case len(files) == 1:
		o.File = files[0]
	}
	if size != "" {
		if n, err := fmt.Sscanf(size, "%fx%f", &o.Width, &o.Height); n != 2 || err != nil {
			tell(errs, b, message.Fail("cli.window-size", message.Name("given", size)))
			return exitBad
		}
	}
	if logFile != "" {
		f, err := os.Create(logFile)
		if err != nil {
			tell(errs, b, message.Fail("cli.log", message.Name("reason", err.Error())))
			return exitBad
		}
		defer f.Close()
		o.Log = f
	}
	if err := app.Run(o); err != nil {
		tell(errs, b, err)
		return exitBad
	}
	return exitClean
}

// report is what check prints as JSON.
type report struct {
	Name         string          `json:"name"`
	Region       string          `json:"region"`
	LeastRaiseMM float64         `json:"leastRaiseMM"`
	Heights      reportHeights   `json:"heights"`
	GovernedBy   string          `json:"governedBy"` // at the bare height
	Levels       []reportLevel   `json:"levels"`
	Findings     []reportFinding `json:"findings"`
	Stops        bool            `json:"stops"`
	Chances      []reportChance  `json:"chances,omitempty"`
	Sealing      reportSealing   `json:"sealing"`
	Cutting      *reportCutting  `json:"cutting,omitempty"`
	Boards       *reportBoards   `json:"boards,omitempty"`
	// MarginMM is how much higher the base would be safe in 95 of 100 cases.
	MarginMM float64 `json:"marginMM,omitempty"`
}

// reportSealing is what is sealed, and with how much.
type reportSealing struct {
	TankedFloorMM2 float64 `json:"tankedFloorMM2"`
	TankedWallsMM2 float64 `json:"tankedWallsMM2"`
	OpeningsMM2    float64 `json:"openingsMM2,omitempty"` // taken off the walls
	RevealsMM2     float64 `json:"revealsMM2,omitempty"`
	UpturnMM2      float64 `json:"upturnMM2,omitempty"` // on walls beside the shower
	BoxingMM2      float64 `json:"boxingMM2,omitempty"` // up and over boxes round the run
	TapeMM         float64 `json:"tapeMM"`
	Collars        int     `json:"collars"`
	SealantMM      float64 `json:"sealantMM"`
	LongestFieldMM float64 `json:"longestFieldMM"`
	StopDoorsMM    float64 `json:"stopDoorsMM,omitempty"`   // water stops at doorways
	StopScreensMM  float64 `json:"stopScreensMM,omitempty"` // and along fixed panes
	EdgeStripMM    float64 `json:"edgeStripMM,omitempty"`   // round floating and heated screeds
	HeatedMM2      float64 `json:"heatedMM2,omitempty"`
}

func sealingOf(s measure.Sealing) reportSealing {
	return reportSealing{
		TankedFloorMM2: round(s.TankedFloorMM2), TankedWallsMM2: round(s.TankedWallMM2),
		OpeningsMM2: round(s.OpeningsMM2), RevealsMM2: round(s.RevealsMM2), UpturnMM2: round(s.UpturnMM2), BoxingMM2: round(s.BoxingMM2),
		TapeMM: round(s.TapeMM()), Collars: s.Collars, SealantMM: round(s.SealantMM()),
		LongestFieldMM: round(s.FieldMM), StopDoorsMM: round(s.StopDoorsMM), StopScreensMM: round(s.StopScreensMM), EdgeStripMM: round(s.EdgeStripMM), HeatedMM2: round(s.HeatedMM2),
	}
}

// reportHeights are the heights that the base may have.
type reportHeights struct {
	Bare      reportHeight `json:"bare"`
	Buildable reportHeight `json:"buildable"`
	Safe      reportHeight `json:"safe"`
	Now       reportHeight `json:"now"`
	BareSetBy string       `json:"bareSetBy"`
	SetBy     string       `json:"setBy"`   // of buildable and safe
	ClearMM   float64      `json:"clearMM"` // under what sets it
}

// reportHeight is one of them: how far its top lies over the highest spot of the
// structural floor, what it is made of and the share of builds in which all fits.
type reportHeight struct {
	RaiseMM   float64   `json:"raiseMM"`
	BoardsMM  []float64 `json:"boardsMM,omitempty"` // none for one piece
	BetweenMM float64   `json:"betweenMM,omitempty"`
	Given     bool      `json:"given"` // by the boards at hand
	Fits      float64   `json:"fits"`
}

// reportChance is how likely a rule is to be broken once the job is built.
type reportChance struct {
	Rule        string  `json:"rule"`
	Where       string  `json:"where"`
	Probability float64 `json:"probability"`
	Main        string  `json:"main,omitempty"`
	MainShare   float64 `json:"mainShare,omitempty"`
}

type reportLevel struct {
	Label       string          `json:"label"`
	Kind        buildup.RowKind `json:"kind"`
	Value       float64         `json:"value"` // mm, or rise over run for a fall
	Worst       float64         `json:"worst,omitempty"`
	Statistical float64         `json:"statistical,omitempty"`
	// Layers under a finished level, from the top down.
	Layers []reportLayer `json:"layers,omitempty"`
}

// reportLayer is one layer of the floor at a place.
type reportLayer struct {
	Name        string  `json:"name"`
	ThicknessMM float64 `json:"thicknessMM"`
}

// layersOf are the layers under a row's level, from the top down; none where it has none.
func layersOf(row buildup.Row, b words.Book) (out []reportLayer) {
	for i := len(row.Stack) - 1; i >= 1; i-- {
		out = append(out, reportLayer{b.Text(row.Stack[i].Name), round(row.Stack[i].ThicknessMM())})
	}
	return out
}

type reportFinding struct {
	Rule     string        `json:"rule"`
	Severity rule.Severity `json:"severity"`
	Subject  string        `json:"subject"`
	Where    string        `json:"where"`
	At       [3]float64    `json:"at"`
	Value    *float64      `json:"value"` // null where it is without bounds
	Compare  rule.Compare  `json:"compare"`
	Limit    float64       `json:"limit"`
	Text     string        `json:"text"`
	Remedy   string        `json:"remedy"`
	Source   string        `json:"source"`
	Verified source.Mark   `json:"verified"`
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
	samples := flags.Int("chances", 0, "")
	with, config := flags.String("with", "", ""), flags.String("config", "", "")
	files, ok := parseMixed(flags, args)
	if !ok {
		return exitBad
	}
	const mostSamples = 1_000_000
	if len(files) != 1 || *samples < 0 || *samples > mostSamples || *with != "" && *samples > 0 {
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
	var chances chance.Chances
	if *samples > 0 {
		chances, err = chance.Count(context.Background(), r.Levelled, r.Findings, *samples, chance.Seed)
		if err != nil && len(r.Problems) == 0 {
			tell(errs, b, err)
			return exitBad
		}
	}
	if *asJSON {
		err = printJSON(out, r, chances, b)
	} else {
		err = printText(out, r, chances, b)
	}
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if r.Stops() {
		return exitStops
	}
	return exitClean
}

func printJSON(out io.Writer, r geometry.Result, chances chance.Chances, b words.Book) error {
	governing := r.Heights.Governing()
	rep := report{
		Name:         r.Settled.Name,
		Region:       r.Settled.Region,
		LeastRaiseMM: round(governing.BaseTopMM - r.Heights.FloorHighMM),
		Heights:      heightsOf(r, b),
		GovernedBy:   b.Say(governing.Reason().Message()),
		Stops:        r.Stops(),
		Sealing:      sealingOf(r.Sealing),
		Cutting:      cuttingOf(r.Cutting()),
	}
	boards, err := r.Boarding()
	if err != nil {
		return err
	}
	rep.Boards = boardsOf(boards, b)
	for _, l := range r.Schedule {
		rep.Levels = append(rep.Levels, reportLevel{b.Say(l.Message()), l.Kind(), round6(l.Value), round6(l.Worst), round6(l.Statistical), layersOf(l, b)})
	}
	rep.Findings = findingsReport(r.Findings, b)
	rep.MarginMM = round(chances.MarginMM)
	for _, k := range chances.Risks {
		where, main := b.Say(k.Measurement.Subject.Message()), b.Say(k.Main.Message())
		rep.Chances = append(rep.Chances, reportChance{k.Rule.ID, where, round6(k.Probability), main, round6(k.MainShare)})
	}
	return printIndented(out, rep)
}

// findingsReport is findings as they are printed as JSON.
func findingsReport(findings []rule.Finding, b words.Book) []reportFinding {
	out := []reportFinding{}
	for _, f := range findings {
		m := f.Measurement
		var value *float64 // JSON has no infinity
		if !math.IsNaN(m.Value) && !math.IsInf(m.Value, 0) {
			v := round6(m.Value)
			value = &v
		}
		at := [3]float64{round(m.At[0]), round(m.At[1]), round(m.At[2])}
		out = append(out, reportFinding{
			f.Rule.ID, f.Rule.Severity, b.Say(f.Rule.Heading()), b.Say(m.Subject.Message()), at,
			value, f.Rule.Compare, f.Rule.Limit,
			b.Say(f.Rule.Text()), b.Say(f.Rule.Remedy()), b.Say(f.Rule.Source.Message()), f.Rule.Source.Mark,
		})
	}
	return out
}

func heightsOf(r geometry.Result, b words.Book) reportHeights {
	of := func(x stage.Raise) reportHeight {
		return reportHeight{round(x.TopMM - r.Heights.FloorHighMM), x.Stack.BoardsMM(), x.Stack.BetweenMM, x.Given, round(x.Fits)}
	}
	all := &r.Raises
	return reportHeights{of(all.Bare), of(all.Buildable), of(all.Safe), of(all.Now),
		b.Say(r.Heights.Governing().Reason().Message()), b.Say(all.SetBy.Reason().Message()), all.SetBy.ClearMM}
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

// wayOut says where the waste goes, how far and how low; by which piece, where one of
// another pipe's joins it. Nothing without a run.
func wayOut(r geometry.Result) message.Message {
	run := &r.Heights.Run
	n := len(run.Pieces)
	if n == 0 {
		return message.Message{}
	}
	way, length := message.In("way", search.WayOut(r.Settled)), message.MM("length", run.LengthMM)
	level := message.At("level", run.InvertAt(run.LevelEndMM(&r.Settled.Waste)))
	if last := &run.Pieces[n-1]; last.Tapers() {
		return message.Of("cli.way-out-by", way, length, level, message.In("piece", last.Name().Message()))
	}
	return message.Of("cli.way-out", way, length, level)
}

func printText(out io.Writer, r geometry.Result, chances chance.Chances, b words.Book) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "%s (%s)\n", store.Plain(r.Settled.Name), b.Text(r.Pack.Name()))
	fmt.Fprintf(w, "%s\n\n", b.Say(r.Verdict()))
	for _, m := range r.HeightLines(r.Raises) {
		fmt.Fprintf(w, "%s\n", b.Say(m))
	}
	if chances.Risks != nil || chances.Fits > 0 {
		if m := r.Raises.Sampled(chances.Fits); !m.IsZero() {
			fmt.Fprintf(w, "%s\n", b.Say(m))
		}
	}
	if m := wayOut(r); !m.IsZero() {
		fmt.Fprintf(w, "%s\n", b.Say(m))
	}
	fmt.Fprintln(w)
	fmt.Fprintf(w, "%s\n", b.Text("cli.levels"))
	for _, l := range r.Schedule {
		spread := ""
		if l.Kind() != buildup.IsFall && l.Worst > 0 {
			spread = b.Say(message.Of("levels.spread", message.Fine("worst", l.Worst), message.Fine("statistical", l.Statistical)))
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\n", b.Say(l.Message()), b.Value(l.Kind().Value(l.Value)), spread)
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
	fmt.Fprintf(w, "\n%s\n", b.Text("cli.findings"))
	for _, f := range r.Findings {
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n",
			b.Text(f.Rule.Severity.Name()), b.Say(f.Rule.Heading()), b.Say(f.Message()), b.Say(f.Rule.Source.Message()))
	}
	for _, c := range r.Contradictions {
		fmt.Fprintf(w, "  %s\n", b.Say(c.Message()))
	}
	for _, i := range r.DoNow {
		fmt.Fprintf(w, "  %s\n", b.Say(i.Message()))
	}
	if len(chances.Risks) > 0 {
		fmt.Fprintf(w, "\n%s\n", b.Text("cli.chances"))
	}
	if chances.MarginMM > 0 {
		fmt.Fprintf(w, "  %s\n", b.Say(message.Of("chance.margin", message.Layer("margin", chances.MarginMM))))
	}
	for _, k := range chances.Risks {
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\t%s\n", b.Text(k.Rule.Severity.Name()), b.Say(k.Rule.Heading()),
			b.Say(k.Measurement.Subject.Message()), b.Say(k.Chance()), b.Say(k.From()))
	}
	fmt.Fprintf(w, "\n%s\n", b.Text("app.underfall-informs-it-does-not-certify"))
	return w.Flush()
}
