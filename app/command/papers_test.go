package command_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry/unit"
)

// paperReport is what of a report is held against paper.
type paperReport struct {
	Levels []struct {
		Label string  `json:"label"`
		Kind  string  `json:"kind"`
		Value float64 `json:"value"`
	} `json:"levels"`
	Run struct {
		Pieces []struct {
			Name   string  `json:"name"`
			FromMM float64 `json:"fromMM"`
			ToMM   float64 `json:"toMM"`
		} `json:"pieces"`
	} `json:"run"`
	Sealing struct {
		TankedFloorMM2 float64 `json:"tankedFloorMM2"`
		TapeMM         float64 `json:"tapeMM"`
	} `json:"sealing"`
	Boards struct {
		Layers []struct {
			Name   string `json:"name"`
			Pieces []struct {
				Number   int     `json:"number"`
				LengthMM float64 `json:"lengthMM"`
				WidthMM  float64 `json:"widthMM"`
				Cuts     []struct {
					LengthMM float64 `json:"lengthMM"`
					WidthMM  float64 `json:"widthMM"`
				} `json:"cuts"`
			} `json:"pieces"`
		} `json:"layers"`
	} `json:"boards"`
	Job struct {
		Shower struct {
			WidthMM float64 `json:"widthMM"`
			DepthMM float64 `json:"depthMM"`
		} `json:"shower"`
	} `json:"job"`
	Cards []struct {
		Severity string `json:"severity"`
		Places   []struct {
			Subject string `json:"subject"`
		} `json:"places"`
	} `json:"cards"`
}

// onPaper is the text of each sheet of a job, by its kind, as a program not written here reads it, on one line each.
func onPaper(t *testing.T, file string) map[string]string {
	t.Helper()
	folder := t.TempDir()
	prices := filepath.Join(folder, "prices.csv")
	if code, _, errs := run("order", file, "-prices-out", prices); code > 1 {
		t.Fatalf("%s: %d, %s", file, code, errs)
	}
	if code, _, errs := run("sheets", file, "-o", folder, "-without-picture", "-prices", prices); code > 1 {
		t.Fatalf("%s: %d, %s", file, code, errs)
	}
	pdfs, err := filepath.Glob(filepath.Join(folder, "*.pdf"))
	if err != nil || len(pdfs) == 0 {
		t.Fatalf("%s: %v, %d sheets", file, err, len(pdfs))
	}
	out := map[string]string{}
	for _, pdf := range pdfs {
		text, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(filepath.Base(pdf), ".pdf")
		out[name[strings.LastIndex(name, "-")+1:]] = strings.Join(strings.Fields(string(text)), " ")
	}
	return out
}

// levelOnPaper is a level as a fitter reads it: whole millimetres, or sixteenths of an inch, with its sign.
func levelOnPaper(mm float64, s unit.System) string {
	steps, per := math.Round(mm), 1.0
	if s == unit.Imperial {
		per = 16
		steps = math.Round(mm / 25.4 * per)
	}
	sign := map[bool]string{true: "+", false: "-"}[steps > 0]
	if steps == 0 {
		sign = ""
	}
	if s != unit.Imperial {
		return sign + strconv.FormatFloat(math.Abs(steps), 'f', 0, 64)
	}
	whole, part := math.Modf(math.Abs(steps) / per)
	says := ""
	if whole > 0 || part == 0 {
		says = strconv.FormatFloat(whole, 'f', 0, 64)
	}
	if part > 0 {
		top, under := int(part*per), int(per)
		for top%2 == 0 {
			top, under = top/2, under/2
		}
		if says != "" {
			says += " "
		}
		says += strconv.Itoa(top) + "/" + strconv.Itoa(under)
	}
	return sign + says + `"`
}

// fractions are those that are written as one sign, as they are written out.
func fractions(text string) string {
	for _, f := range [...][2]string{{"½", "1/2"}, {"¼", "1/4"}, {"¾", "3/4"}, {"⅛", "1/8"}, {"⅜", "3/8"}, {"⅝", "5/8"}, {"⅞", "7/8"}} {
		text = strings.ReplaceAll(regexp.MustCompile(`(\d)`+f[0]).ReplaceAllString(text, "$1 "+f[1]), f[0], f[1])
	}
	return text
}

// What a report says in numbers is what every sheet of every demo says, in the units of the job and the others: every level, each finding
// that is to be settled, every pipe with its length, how large the tanked floor is, every board as it is sawn, what is sawn out of it, how
// large the shower is, and all that is ordered.
func TestPapersSayWhatTheReportSays(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	list, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range list {
		for _, s := range [...]unit.System{unit.Metric, unit.Imperial} {
			j := d.Job
			j.Units = s
			file := filepath.Join(t.TempDir(), d.File)
			data, err := json.Marshal(j)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, data, 0o600); err != nil {
				t.Fatal(err)
			}
			var r paperReport
			if code, out, errs := run("check", file, "-json"); code > 1 || json.Unmarshal([]byte(out), &r) != nil {
				t.Fatalf("%s: %d, %s", d.File, code, errs)
			}
			sheets := onPaper(t, file)
			holdPaper(t, d.File+", "+string(s), s, &r, sheets)
			holdQuote(t, d.File+", "+string(s), file, sheets["quote"])
			if s == unit.Metric {
				holdBoards(t, d.File, &r, sheets)
				holdCustomers(t, d.File, &r, sheets["customer"])
			}
		}
	}
}

// holdPaper holds the sheets of a job against its report.
func holdPaper(t *testing.T, name string, s unit.System, r *paperReport, sheets map[string]string) {
	t.Helper()
	fitter := fractions(sheets["fitter"])
	levels := 0
	for _, l := range r.Levels {
		if l.Kind != "level" {
			continue
		}
		levels++
		if says := levelOnPaper(l.Value, s); !strings.Contains(fitter, says) {
			t.Errorf("%s: %s, %v, is no %s on the fitter's sheet", name, l.Label, l.Value, says)
		}
	}
	if levels < 8 {
		t.Errorf("%s: only %d levels", name, levels)
	}
	for _, c := range r.Cards {
		if c.Severity != "note" && !strings.Contains(fitter, strings.Split(c.Places[0].Subject, ":")[0]) {
			t.Errorf("%s: %s is not told to be settled", name, c.Places[0].Subject)
		}
	}
	if s != unit.Metric {
		return
	}
	_, sawn, _ := strings.Cut(fitter, "Pipe, as it is sawn")
	order := sheets["order"]
	for _, p := range r.Run.Pieces {
		if !strings.HasPrefix(p.Name, "Pipe ") {
			continue
		}
		// In plan it is a little less than as it is sawn, and goes on into its sockets. What it is of may end in a number
		// too, and the page with the row, so that the day at its foot follows.
		row := regexp.MustCompile(regexp.QuoteMeta(p.Name) +
			`(?:, \d+ of it past the face of wall \w)? \S.*? (\d+) (\d+) (\d+) (?:\D|\d{4}-\d\d-\d\d)`).FindStringSubmatch(sawn)
		if row == nil || !strings.Contains(order, "("+p.Name) {
			t.Errorf("%s: %s is not told as it is sawn", name, p.Name)
		} else if seen, _ := strconv.ParseFloat(row[1], 64); math.Abs(seen-(p.ToMM-p.FromMM)) > 2 {
			t.Errorf("%s: %s is %v long, on paper %v", name, p.Name, p.ToMM-p.FromMM, seen)
		}
	}
	tanked := regexp.MustCompile(`The shower's floor: ([\d.]+) m².*?The room's floor: ([\d.]+) m²`).FindStringSubmatch(order)
	if tanked == nil {
		return // the shower's floor alone is tanked
	}
	shower, _ := strconv.ParseFloat(tanked[1], 64)
	room, _ := strconv.ParseFloat(tanked[2], 64)
	if want := r.Sealing.TankedFloorMM2 / 1e6; math.Abs(shower+room-want) > 0.05*want {
		t.Errorf("%s: %v m² and %v m² of tanked floor on the order, %v in the report", name, shower, room, want)
	}
}

// holdBoards holds every board of a report, with the size it is sawn to, against the cutting sheet, and every piece that is sawn out of one
// against the templates; and where the hole through the wall is bored against its template.
func holdBoards(t *testing.T, name string, r *paperReport, sheets map[string]string) {
	t.Helper()
	// What is told of parts of a length is rounded so that they add up.
	near := func(said string, mm float64) bool {
		on, err := strconv.ParseFloat(said, 64)
		return err == nil && math.Abs(on-mm) <= 1
	}
	const pageMM = 180
	cutting := strings.Fields(sheets["cutting"])
	for _, l := range r.Boards.Layers {
		if !strings.Contains(sheets["cutting"], l.Name+": laid") {
			t.Errorf("%s: %s is not on the cutting sheet", name, l.Name)
		}
		for _, p := range l.Pieces {
			found := false
			for i := range max(0, len(cutting)-2) {
				found = found || cutting[i] == strconv.Itoa(p.Number) && near(cutting[i+1], p.LengthMM) && near(cutting[i+2], p.WidthMM)
			}
			if !found {
				t.Errorf("%s: board %d of %v by %v is not on the cutting sheet", name, p.Number, p.LengthMM, p.WidthMM)
			}
			if len(p.Cuts) > 0 && !strings.Contains(sheets["templates"], fmt.Sprintf("Board %d,", p.Number)) {
				t.Errorf("%s: board %d has no template", name, p.Number)
			}
			for _, c := range p.Cuts {
				found = false
				for _, size := range regexp.MustCompile(`(\d+) × (\d+)`).FindAllStringSubmatch(sheets["templates"], -1) {
					found = found || near(size[1], c.LengthMM) && near(size[2], c.WidthMM)
				}
				// Of what is longer than a page only the pages with corners are printed, where its size may not stand.
				if !found && c.LengthMM < pageMM && c.WidthMM < pageMM {
					t.Errorf("%s: what is sawn out of board %d, %v × %v, has no template", name, p.Number, c.LengthMM, c.WidthMM)
				}
			}
		}
	}
	for _, l := range r.Levels {
		if l.Label == "Hole in wall, middle" && !strings.Contains(sheets["templates"], "at "+levelOnPaper(l.Value, unit.Metric)+";") {
			t.Errorf("%s: the template of the hole is not told to lie at %v", name, l.Value)
		}
	}
}

// holdCustomers holds how large the shower is, and how high the step that is told, against the report.
func holdCustomers(t *testing.T, name string, r *paperReport, sheet string) {
	t.Helper()
	for _, mm := range [...]float64{r.Job.Shower.WidthMM, r.Job.Shower.DepthMM} {
		if says := fmt.Sprintf("%.0f mm", mm); strings.Contains(sheet, "The shower's floor is") && !strings.Contains(sheet, says) {
			t.Errorf("%s: the customer is not told of %s", name, says)
		}
	}
	step := regexp.MustCompile(`You step up (\d+) mm`).FindStringSubmatch(sheet)
	if step == nil {
		return // one walks in level, or up a ramp
	}
	for _, l := range r.Levels {
		// It is told as the difference of both levels as they are told.
		if high, err := strconv.ParseFloat(step[1], 64); err == nil && strings.HasPrefix(l.Label, "Step at the ") && math.Abs(high-l.Value) <= 1 {
			return
		}
	}
	t.Errorf("%s: no step of the report is %s high", name, step[1])
}

// holdQuote holds what a quote lists against what is ordered: every thing is named.
func holdQuote(t *testing.T, name, file, quote string) {
	t.Helper()
	var r struct {
		Lines []struct {
			Item string `json:"item"`
		} `json:"lines"`
	}
	if code, out, errs := run("order", file, "-json"); code > 1 || json.Unmarshal([]byte(out), &r) != nil || len(r.Lines) == 0 {
		t.Fatalf("%s: %d, %s", name, code, errs)
	}
	quote = fractions(quote)
	for _, l := range r.Lines {
		if words := strings.Fields(fractions(l.Item)); !strings.Contains(quote, strings.Join(words[:min(3, len(words))], " ")) {
			t.Errorf("%s: “%s” is not in the quote", name, l.Item)
		}
	}
}
