package command_test

import (
	"bytes"
	"encoding/json"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"unicode"

	"underfall/app/command"
	"underfall/app/words"
	"underfall/assets"
)

func run(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = command.Run(args, &o, &e)
	return code, o.String(), e.String()
}

// refused holds that a command line is refused as one that cannot be followed, in words
// that hold the given ones.
func refused(t *testing.T, says string, args ...string) {
	t.Helper()
	if code, _, errs := run(args...); code != 2 || !strings.Contains(errs, says) {
		t.Errorf("%v: code %d, errors %q, want 2 and %q", args, code, errs, says)
	}
}

const demos = "../../assets/demos/"

// What may go wrong by one cause is told as one: its severity stands once, before the first of
// its places. In the first demo a low base and a pipe in the floor are one cause.
func TestChancesByCause(t *testing.T) {
	_, out, errs := run("check", "-chances", "400", demos+"1-slab-side-wall.json")
	_, after, found := strings.Cut(out, "Chances of breaking a rule once built")
	if !found {
		t.Fatal(out, errs)
	}
	after, _, _ = strings.Cut(after, "Cautions")
	if !strings.Contains(after, "Base too low") || !strings.Contains(after, "Pipe reaches into the floor") {
		t.Fatal(after)
	}
	if n := strings.Count(after, "Stops"); n != 1 {
		t.Errorf("%d severities of one cause:%s", n, after)
	}
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"check", demos + "1-slab-side-wall.json"}, 0, "Pipe 1 over the floor"},
		{[]string{"check", demos + "6-cannot-be-built.json"}, 1, "Pipe too flat"},
		{[]string{"check", demos + "6-cannot-be-built.json", "-json"}, 1, `"standing": "stops"`},
		{[]string{"check", "--json", demos + "1-slab-side-wall.json"}, 0, `"standing": "tight"`},
		{[]string{"check", "-chances", "400", demos + "1-slab-side-wall.json"}, 0, "Chances of breaking a rule once built"},
		{[]string{"check", "-json", "-chances", "400", demos + "1-slab-side-wall.json"}, 0, `"probability": 0.`},
		{[]string{"check", demos + "5-l-shaped-two-doorways.json"}, 0, "    100 mm  Room board below"},
		{[]string{"check", "-json", demos + "5-l-shaped-two-doorways.json"}, 0, `"name": "Room board below",`},
		{[]string{"check", demos + "1-slab-side-wall.json"}, 0, "no. 1: 1200 mm × 600 mm"},
		{[]string{"check", "-json", demos + "1-slab-side-wall.json"}, 0, `"sheets": 2,`},
		{[]string{"help"}, 0, "underfall check JOB"},
		{[]string{"help"}, 0, "underfall notices"},
		{[]string{"notices"}, 0, "■ fyne.io/fyne/v2 | v"},
		{[]string{"notices"}, 0, "SIL OPEN FONT LICENSE Version 1.1"},
		{[]string{"version"}, 0, "Underfall"},
		{[]string{"version"}, 0, runtime.Version()},
	} {
		code, out, errs := run(c.args...)
		if code != c.code || !strings.Contains(out, c.says) {
			t.Errorf("%v: code %d, output %.200q, errors %q", c.args, code, out, errs)
		}
	}
}

func TestCheckBadInput(t *testing.T) {
	folder := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	good, err := os.ReadFile(demos + "1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	with := func(name, old, new string) string { return file(name, strings.Replace(string(good), old, new, 1)) }
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"check"}, "underfall check"},
		{[]string{"check", "a", "b"}, "underfall check"},
		{[]string{"check", filepath.Join(folder, "none")}, ": there is no such file"},
		{[]string{"check", file("empty", "")}, "empty"},
		{[]string{"check", file("cut", string(good[:500]))}, "damaged"},
		{[]string{"check", file("newer", `{"version": 99}`)}, "newer version"},
		{[]string{"check", with("region", `"UK"`, `"Mars"`)},
			"Country: there are no rules for “Mars”; choose one of: AU, AU-SA, DE, IE, NZ, UK, UK-EN, UK-NI, UK-SC, UK-WA, US or US-UPC"},
		{[]string{"check", "-chances", "-3", "x"}, "underfall check"},
		{[]string{"check", "-loud", "x"}, "loud"},
		{[]string{"check", with("negative", `"depthMM": 900`, `"depthMM": -900`)},
			"Depth (Shower): must be between 300 mm and 10000 mm"},
	} {
		refused(t, c.says, c.args...)
	}
}

// Pipes, devices and endless files are refused without being read; so is endless
// standard input.
func TestCheckRefusesWhatIsNoFile(t *testing.T) {
	folder := t.TempDir()
	pipe, large := filepath.Join(folder, "pipe"), filepath.Join(folder, "large")
	if err := syscall.Mkfifo(pipe, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(large, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, 100<<20); err != nil {
		t.Fatal(err)
	}
	zero, err := os.Open("/dev/zero")
	if err != nil {
		t.Fatal(err)
	}
	defer zero.Close()
	stdin := os.Stdin
	os.Stdin = zero
	defer func() { os.Stdin = stdin }()
	for path, says := range map[string]string{
		pipe: "pipe or a device", "/dev/zero": "pipe or a device", large: "too large", folder: "folder", "-": "too large",
	} {
		for _, args := range [][]string{{"check", path}, {"render", path}} {
			if code, _, errs := run(args...); code != 2 || !strings.Contains(errs, says) || !strings.Contains(errs, path) {
				t.Errorf("%v: code %d, %q", args, code, errs)
			}
		}
	}
}

// Nothing that a job's file or its name holds steers the terminal or turns the
// writing round; in JSON the name stays what it is.
func TestNothingSteersTheTerminal(t *testing.T) {
	good, err := os.ReadFile(demos + "1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	const name = `Bath\u001b[2J\u202e gnp.\u0007\u009b31m`
	text := regexp.MustCompile(`(?m)^  "name": ".*"`).ReplaceAllLiteralString(string(good), `  "name": "`+name+`"`)
	path := filepath.Join(t.TempDir(), "\x1b[31m.json")
	steers := func(r rune) bool { return r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) }
	for _, text := range []string{
		text,
		strings.Replace(text, `"version"`, `"\u001b[2Jversion"`, 1),
		strings.Replace(text, `"metric"`, `"\u001b[2J\u202e"`, 1),
	} {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		_, out, errs := run("check", path)
		if i := strings.IndexFunc(out+errs, steers); i >= 0 || out+errs == "" {
			t.Errorf("printed is %q", (out + errs)[max(0, i):])
		}
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	var r struct{ Name string }
	if _, out, errs := run("check", "-json", path); errs == "" {
		const is = "Bath\x1b[2J\u202e gnp.\a\u009b31m"
		if err := json.Unmarshal([]byte(out), &r); err != nil || r.Name != is || strings.IndexFunc(out, steers) >= 0 {
			t.Errorf("as JSON the name is %q, %v", r.Name, err)
		}
	}
	_, _, errs := run("check", filepath.Join(t.TempDir(), "\x1b[31m"))
	if strings.IndexFunc(errs, steers) >= 0 || !strings.Contains(errs, "no such file") {
		t.Errorf("printed is %q", errs)
	}
}

// A turn writes its pictures one by one, each of another side; dimensions,
// corner cuts, layers apart, stages and lights are drawn.
func TestRenderTurntable(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "turn.png")
	code, _, errs := run("render", demos+"2-loft-joists-across.json", "-o", file, "-size", "96x64", "-samples", "1",
		"-turntable", "3", "-cut", "corner", "-dimensions", "-light", "evening", "-wet", "-stage", "5")
	if code != 0 && strings.Contains(errs, "OpenGL") {
		t.Skip(errs)
	}
	if code != 0 || !strings.Contains(errs, "%") {
		t.Fatalf("code %d, %s", code, errs)
	}
	seen := map[string]bool{}
	for _, name := range []string{"turn-01.png", "turn-02.png", "turn-03.png"} {
		data, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			t.Fatal(err)
		}
		seen[string(data)] = true
	}
	if len(seen) != 3 {
		t.Errorf("%d different pictures", len(seen))
	}
	for name, args := range map[string][]string{
		"cut": {"-cut", "diagonal"}, "light": {"-light", "moon"}, "stage": {"-stage", "9"},
		"apart": {"-apart", "2"}, "apart takes 0 to 1": {"-apart", "NaN"}, "samples": {"-samples", "0"},
	} {
		refused(t, name, append([]string{"render", demos + "1-slab-side-wall.json"}, args...)...)
	}
}

// A still picture is written without a display, of the size asked for.
func TestRender(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.png")
	code, _, errs := run("render", demos+"1-slab-side-wall.json", "-o", file,
		"-size", "160x100", "-samples", "2", "-view", "cut", "-transparent")
	if code != 0 && strings.Contains(errs, "OpenGL") {
		t.Skip(errs)
	}
	f, err := os.Open(file)
	if code != 0 || err != nil {
		t.Fatalf("code %d, %v, %s", code, err, errs)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil || img.Bounds().Dx() != 160 || img.Bounds().Dy() != 100 {
		t.Fatalf("%v, %v", img.Bounds(), err)
	}
	if _, _, _, a := img.At(0, 99).RGBA(); a != 0 {
		t.Errorf("the background has opacity %d", a)
	}
	for name, args := range map[string][]string{
		"size": {"-size", "0x9"}, "320x200x9": {"-size", "320x200x9"}, "4294967296x4294967296": {"-size", "4294967296x4294967296"},
		"view": {"-view", "behind"}, "look": {"-look", "pretty"},
	} {
		refused(t, name, append([]string{"render", demos + "1-slab-side-wall.json"}, args...)...)
	}
	refused(t, "job", "render", "-o", "x")
}

// Every drawing is painted without a display, each another picture; what cannot be drawn is
// told.
func TestDraw(t *testing.T) {
	seen := map[string]bool{}
	for _, args := range [][]string{
		{}, {"-cut", "run"}, {"-cut", "way-in"}, {"-cut", "door"}, {"-cut", "step:2"}, {"-cut", "points:200,300,900,1700"},
		{"-cut", "level:60"}, {"-cut", "pipe-level"}, {"-cut", "tile-level"}, {"-cut", "drain", "-turned", "20"}, {"-stage", "1"}, {"-dark"}, {"-drawing", "plan"}, {"-drawing", "waste"}, {"-drawing", "bed"}, {"-drawing", "boards"},
	} {
		file := filepath.Join(t.TempDir(), "a.png")
		all := append([]string{"draw", demos + "1-slab-side-wall.json", "-o", file, "-size", "640x400"}, args...)
		if code, _, errs := run(all...); code != 0 {
			t.Fatalf("%v: code %d, %s", args, code, errs)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil || img.Bounds().Dx() != 640 || img.Bounds().Dy() != 400 {
			t.Fatalf("%v: %v", args, err)
		}
		seen[string(data)] = true
	}
	// The second step of the job is the one at its way in: the same cut.
	if len(seen) != 15 {
		t.Errorf("%d different drawings", len(seen))
	}
	for name, args := range map[string][]string{
		"drawing": {"-drawing", "elevation"}, "cut": {"-cut", "corner"}, "step:N": {"-cut", "step:x"}, "points:X": {"-cut", "points:1,2,3"},
		"drain, run": {"-cut", "drain:3"}, "no step 9": {"-cut", "step:9"}, "the same": {"-cut", "points:5,5,5,5"},
		"outside the room": {"-cut", "points:-900,0,-900,500"}, "at that level": {"-cut", "level:9000"}, "no number": {"-turned", "NaN"}, "size": {"-size", "9"}, "stage": {"-stage", "-1"},
	} {
		refused(t, name, append([]string{"draw", demos + "1-slab-side-wall.json"}, args...)...)
	}
	if code, _, _ := run("draw"); code != 2 {
		t.Errorf("no job: code %d", code)
	}
}

// In the made-up language everything that is printed of a job stands in brackets, but
// for numbers with their units, the job's own name, and the titles of documents.
func TestEverythingPrintedIsTranslated(t *testing.T) {
	t.Setenv("UNDERFALL_LANGUAGE", words.MadeUp)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	all, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range all {
		keep := []string{d.Job.Name, ""}
		for _, r := range packs[d.Job.Region].Rules {
			keep = append(keep, r.Source.Document, "", r.Source.Edition, "", r.Source.Clause, "")
		}
		for _, u := range []string{"mm/m", "mm", "in/ft", "gal/min", "ft/s", "l/min", "m/s", "min"} {
			keep = append(keep, u, "")
		}
		keep = slices.DeleteFunc(keep, func(s string) bool { return s == "" })
		var pairs []string
		for _, k := range keep {
			pairs = append(pairs, k, "")
		}
		own := strings.NewReplacer(pairs...)
		_, out, errs := run("check", "-chances", "200", demos+d.File)
		for _, line := range strings.Split(out+errs, "\n") {
			if rest := own.Replace(words.Outside(line)); strings.IndexFunc(rest, unicode.IsLetter) >= 0 {
				t.Errorf("%s: “%s”", d.File, line)
			}
		}
	}
	for _, args := range [][]string{
		{"help"}, {"check"}, {"check", "no-such-file.json"}, {"render", demos + "1-slab-side-wall.json", "-look", "odd"},
	} {
		_, out, errs := run(args...)
		if said := strings.TrimSpace(out + errs); !strings.HasPrefix(said, "[") || !strings.HasSuffix(said, "]") {
			t.Errorf("%v: “%s”", args, said)
		}
	}
}

// Options may stand after the job, for the window as well, which opens one job; what a command does
// not take is refused in words.
func TestArgumentsAfterTheJob(t *testing.T) {
	one := demos + "1-slab-side-wall.json"
	for says, args := range map[string][]string{
		"Name one job file":               {one, one},
		"give width and height":           {one, "-size", "9"},
		"flag provided but not defined":   {one, "-drak"},
		"“-x” is not understood":          {"version", "-x"},
		"“JOB.json” is not understood":    {"notices", "JOB.json"},
		"“check” is not understood":       {"help", "check"},
		"flag provided but not defined: ": {"check", one, "-drak"},
	} {
		if code, out, errs := run(args...); code != 2 || !strings.Contains(errs, says) {
			t.Errorf("%v: code %d, output %.100q, errors %.300q, want %q", args, code, out, errs, says)
		}
	}
}
