package main_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// desktop is a virtual screen with the program on it, driven like a person
// would.
type desktop struct {
	t       *testing.T
	display string
	logFile string
	binary  string
	program *exec.Cmd
	server  *exec.Cmd // the screen
	// language is what the program speaks.
	language string
	steps    int // presses, keys and texts typed
}

// openDesktop builds the program and starts a virtual screen with software
// OpenGL. The test is skipped where there is no Xvfb or xdotool.
func openDesktop(t *testing.T) *desktop {
	t.Helper()
	for _, tool := range []string{"Xvfb", "xdotool"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is missing: the walk through the real window is skipped (./cmd/dev test installs it)", tool)
		}
	}
	folder := t.TempDir()
	d := &desktop{t: t, logFile: filepath.Join(folder, "log"), binary: filepath.Join(folder, "underfall"), language: "en-GB"}
	readsSources(t)
	if out, err := exec.Command("go", "build", "-o", d.binary, ".").CombinedOutput(); err != nil {
		t.Fatalf("building: %v\n%s", err, out)
	}
	d.turnOn()
	return d
}

// turnOn starts the screen.
func (d *desktop) turnOn() {
	t := d.t
	t.Helper()
	// Let the server choose a free number and say it.
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1400x900x24", "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{write}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	d.server = server
	t.Cleanup(func() { _ = server.Process.Kill(); _ = server.Wait() })
	_ = write.Close()
	var number int
	if _, err := fmt.Fscan(read, &number); err != nil {
		t.Fatalf("starting the virtual screen: %v", err)
	}
	d.display = fmt.Sprintf(":%d", number)
}

func (d *desktop) environment() []string {
	// What the toolkit keeps is of this test alone: another window's answers would be gone on with.
	kept := filepath.Join(filepath.Dir(d.logFile), "toolkit")
	return append(os.Environ(), "XDG_CONFIG_HOME="+kept, "UNDERFALL_LANGUAGE="+d.language, "DISPLAY="+d.display,
		"LIBGL_ALWAYS_SOFTWARE=1", "WAYLAND_DISPLAY=")
}

// start opens the program at 1280 × 800 and waits for its first picture.
func (d *desktop) start(args ...string) {
	d.t.Helper()
	d.run(append([]string{"-demo"}, args...)...)
	d.wait("first picture after")
	d.pause()
}

// config is the folder of the program's own files.
func (d *desktop) config() string { return filepath.Join(filepath.Dir(d.logFile), "config") }

// run opens the program.
func (d *desktop) run(args ...string) {
	d.t.Helper()
	args = append([]string{"-size", "1280x800", "-log", d.logFile, "-config", d.config()}, args...)
	d.program = exec.Command(d.binary, args...)
	d.program.Env = d.environment()
	if err := d.program.Start(); err != nil {
		d.t.Fatal(err)
	}
	d.t.Cleanup(func() { _ = d.program.Process.Kill() })
}

func (d *desktop) stop() {
	_ = d.program.Process.Kill()
	_ = d.program.Wait()
}

func (d *desktop) log() string {
	data, _ := os.ReadFile(d.logFile)
	return string(data)
}

// wait waits for a line of the log to match and gives the last match.
func (d *desktop) wait(pattern string) []string {
	d.t.Helper()
	re := regexp.MustCompile("(?m)" + pattern)
	for range 300 {
		if m := re.FindAllStringSubmatch(d.log(), -1); len(m) > 0 {
			return m[len(m)-1]
		}
		time.Sleep(100 * time.Millisecond)
	}
	d.t.Fatalf("the log never says %q:\n%s", pattern, d.log())
	return nil
}

// pause lets the window settle.
func (d *desktop) pause() { time.Sleep(700 * time.Millisecond) }

// do runs xdotool.
func (d *desktop) do(args ...string) {
	d.t.Helper()
	cmd := exec.Command("xdotool", args...)
	cmd.Env = d.environment()
	if out, err := cmd.CombinedOutput(); err != nil {
		d.t.Fatalf("xdotool %s: %v\n%s", strings.Join(args, " "), err, out)
	}
}

func (d *desktop) click(x, y int) {
	d.t.Helper()
	d.steps++
	d.do("mousemove", fmt.Sprint(x), fmt.Sprint(y), "sleep", "0.15", "click", "1", "sleep", "0.4")
}

func (d *desktop) key(keys ...string) {
	d.t.Helper()
	for _, k := range keys {
		d.steps++
		d.do("key", k, "sleep", "0.15")
	}
}

// typed types a text.
func (d *desktop) typed(text string) {
	d.t.Helper()
	d.steps++
	d.do("type", "--delay", "60", text)
}

// took holds how many steps there were since they were counted last to how many there should be at most.
func (d *desktop) took(what string, most int) {
	d.t.Helper()
	if d.steps > most {
		d.t.Errorf("%s takes %d steps, more than %d", what, d.steps, most)
	}
}

// saved saves the job and gives its file.
func (d *desktop) saved(path string) []byte {
	d.t.Helper()
	d.forget()
	d.key("ctrl+s")
	d.wait(`saved .*` + regexp.QuoteMeta(filepath.Base(path)))
	data, err := os.ReadFile(path)
	if err != nil {
		d.t.Fatal(err)
	}
	d.pause()
	return data
}

// jobNamed writes a worked example to a file of a name.
func (d *desktop) jobNamed(name string) (path string, data []byte) {
	d.t.Helper()
	path = filepath.Join(filepath.Dir(d.logFile), name)
	data, err := os.ReadFile("../../geometry/job/testdata/version-4/1-slab-side-wall.json")
	if err != nil {
		d.t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		d.t.Fatal(err)
	}
	return path, data
}

// forget empties the log, so that wait sees only what comes.
func (d *desktop) forget() {
	if err := os.Truncate(d.logFile, 0); err != nil {
		d.t.Fatal(err)
	}
}

// A walk through the real window: open a job, open the station of the way out and lay the
// pipe steeper, save and undo from within the field, drag the cut, press a card, undo, and open
// the file again; then go to the start page, open a worked example, see it in the showroom and
// come back.
func TestWalk(t *testing.T) {
	d := openDesktop(t)
	path, _ := d.jobNamed("walk.json")
	d.start(path)
	d.wait(`base top 79\.00 tile 115\.00 stops 0`)
	d.changeFall()
	d.dragCut()
	// The first card, under the answer.
	d.pause()
	d.click(1100, 440)
	d.wait(`finding .+/`)
	d.undoAndRedo()
	d.pause() // what was kept of it while it was unsaved is put away
	d.stop()

	d.forget()
	d.start(path)
	d.wait(`base top 95\.00 .* unsaved false`)
	// A worked example from the start page.
	d.click(40, 24)
	d.pause()
	d.click(1150, 330)
	d.wait(`job "Loft under`)
	d.seeShowroom()
	d.stop()
}

// changeFall opens the way out on the rail and types the pipe's fall; saves, undoes and redoes
// from within the field.
func (d *desktop) changeFall() {
	d.t.Helper()
	d.typeFall()
	d.wait(`base top 95\.00`)
	// Shortcuts work while the field has the focus: what was typed is saved.
	d.key("ctrl+s")
	d.wait(`saved .*walk\.json`)
	d.wait(`base top 95\.00 .* unsaved false`)
	d.pause()
	d.forget()
	d.key("ctrl+z")
	d.wait(`base top 79\.00 .* unsaved true`)
	d.key("ctrl+y")
	d.wait(`base top 95\.00 .* unsaved false`)
}

// typeFall opens the way out on the rail and types the pipe's fall.
func (d *desktop) typeFall() {
	d.t.Helper()
	d.click(820, 770)
	d.pause()
	d.do("mousemove", "150", "400")
	for range 15 { // to the foot of the fields
		d.do("click", "5")
	}
	d.pause()
	d.click(150, 490)
	d.key("ctrl+a")
	d.typed("1:20")
}

// dragCut has the picture shown in the place that it shares with the plan while the fields are open,
// and drags the cut by its grip.
func (d *desktop) dragCut() {
	d.t.Helper()
	d.pause()
	d.forget()
	d.click(880, 74)
	grip := d.wait(`grip (\d+) (\d+)`)
	var x, y int
	if _, err := fmt.Sscan(grip[1]+" "+grip[2], &x, &y); err != nil {
		d.t.Fatal(err)
	}
	d.pause()
	d.do("mousemove", fmt.Sprint(x), fmt.Sprint(y), "sleep", "0.2", "mousedown", "1")
	for k := 1; k <= 8; k++ {
		d.do("mousemove", fmt.Sprint(x-6*k), fmt.Sprint(y+k), "sleep", "0.05")
	}
	d.do("mouseup", "1")
	d.wait(`cut true drain -?[1-9]\d*\.\d`)
}

// undoAndRedo does so outside a field.
func (d *desktop) undoAndRedo() {
	d.t.Helper()
	d.forget()
	d.key("ctrl+z")
	d.wait(`base top 79\.00`)
	d.forget()
	d.key("ctrl+y")
	d.wait(`base top 95\.00`)
}

// seeShowroom goes into the showroom and back; then layers apart and another view.
func (d *desktop) seeShowroom() {
	d.t.Helper()
	d.pause()
	d.key("F11")
	d.wait(`showroom true`)
	d.pause()
	d.key("Escape")
	d.wait(`showroom false`)
	d.pause()
	d.forget()
	d.key("c")
	d.wait(`cut false`)
}

// Without a display the program says so in a sentence.
func TestWithoutDisplay(t *testing.T) {
	binary := filepath.Join(t.TempDir(), "underfall")
	readsSources(t)
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		t.Fatalf("building: %v\n%s", err, out)
	}
	cmd := exec.Command(binary)
	for _, e := range os.Environ() {
		if !strings.HasPrefix(e, "DISPLAY=") && !strings.HasPrefix(e, "WAYLAND_DISPLAY=") {
			cmd.Env = append(cmd.Env, e)
		}
	}
	out, err := cmd.CombinedOutput()
	if cmd.ProcessState.ExitCode() != 2 || !strings.Contains(string(out), "no display") {
		t.Errorf("%v: %s", err, out)
	}
}

// Without OpenGL for the 3D picture the window opens, says so and works.
func TestWithout3D(t *testing.T) {
	d := openDesktop(t)
	// An EGL that knows no driver: Fyne's own GLX window is not touched by it.
	empty := t.TempDir()
	t.Setenv("__EGL_VENDOR_LIBRARY_DIRS", empty)
	args := []string{"-demo", "-size", "1280x800", "-log", d.logFile, "-config", empty}
	d.program = exec.Command(d.binary, args...)
	d.program.Env = d.environment()
	if err := d.program.Start(); err != nil {
		t.Fatal(err)
	}
	defer d.stop()
	d.wait(`3d off: .*OpenGL`)
	d.wait(`base top 80\.50`)
	d.key("ctrl+m")
	d.wait(`measure true`)
}
