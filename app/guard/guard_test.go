package guard_test

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"underfall/app/guard"
	"underfall/geometry/message"
)

// collect is a guard whose faults are put into a list.
func collect() (*guard.Guard, func() []guard.Fault) {
	var mu sync.Mutex
	var all []guard.Fault
	g := guard.New(func(f guard.Fault) { mu.Lock(); all = append(all, f); mu.Unlock() }, nil)
	return g, func() []guard.Fault { mu.Lock(); defer mu.Unlock(); return append([]guard.Fault(nil), all...) }
}

// breaks panics as a slip of the program does.
func breaks() {
	var all []int
	all[len(os.Args)]++
}

// A fault is told with its part, what was being done and where it happened, and
// goes no further.
func TestAFaultGoesNoFurther(t *testing.T) {
	g, faults := collect()
	if g.Do("The lamp", func() string { return "at full light" }, breaks) {
		t.Error("a fault came through as sound")
	}
	if !g.Do("The lamp", nil, func() {}) {
		t.Error("sound work did not come through")
	}
	f := faults()
	if len(f) != 1 || f[0].Part != "The lamp" || f[0].Doing != "at full light" || !strings.Contains(f[0].Reason, "index out of range") {
		t.Fatalf("told %+v", f)
	}
	where := strings.Join(f[0].Stack, "\n")
	if !strings.Contains(where, "guard_test.breaks guard/guard_test.go:") || strings.Contains(where, "gopanic") {
		t.Errorf("the stack is\n%s", where)
	}
	if home, err := os.Getwd(); err == nil && strings.Contains(where, home) {
		t.Errorf("the stack tells folders:\n%s", where)
	}
}

// Goroutines, wrapped functions and timers are kept the same way.
func TestEveryWayIsGuarded(t *testing.T) {
	g, faults := collect()
	var done sync.WaitGroup
	done.Add(3)
	g.Run("A step", breaks, func(sound bool) {
		defer done.Done()
		if sound {
			t.Error("what broke is told as sound")
		}
	})
	g.Go("A goroutine", func() { defer done.Done(); breaks() })
	g.Wrap("A call", breaks)()
	func() { defer g.Catch("A handler"); breaks() }()
	g.After(0, "A timer", func() { defer done.Done(); breaks() })
	done.Wait()
	for range 1000 {
		if len(faults()) == 5 {
			break
		}
		runtime.Gosched()
		time.Sleep(time.Millisecond)
	}
	if n := len(faults()); n != 5 {
		t.Errorf("%d faults were told of five", n)
	}
}

// The probe stands before the work, and what it panics with counts as the
// part's own fault.
func TestProbe(t *testing.T) {
	var told []message.ID
	g := guard.New(func(f guard.Fault) { told = append(told, f.Part) }, func(part message.ID) {
		if part == "The pump" {
			panic("probed")
		}
	})
	ran := false
	if g.Do("The pump", nil, func() { ran = true }) || ran || len(told) != 1 {
		t.Errorf("ran %v, told %v", ran, told)
	}
	if !g.Do("The lamp", nil, func() { ran = true }) || !ran {
		t.Error("another part is hit as well")
	}
}

// A fault in the report does no harm, and ending a goroutine is no fault.
func TestWhatIsNoFault(t *testing.T) {
	g := guard.New(func(guard.Fault) { panic(errors.New("the reporter broke")) }, nil)
	if g.Do("The lamp", nil, breaks) {
		t.Error("sound")
	}
	quiet, faults := collect()
	var done sync.WaitGroup
	done.Add(1)
	quiet.Go("The lamp", func() { defer done.Done(); runtime.Goexit() })
	done.Wait()
	if n := len(faults()); n != 0 {
		t.Errorf("%d faults", n)
	}
}

// What is done after a fault gives its error, its panic as one, and is not waited
// for when it hangs.
func TestWithin(t *testing.T) {
	if err := guard.Within(time.Minute, func() error { return nil }); err != nil {
		t.Error(err)
	}
	full := errors.New("the disk is full")
	if err := guard.Within(time.Minute, func() error { return full }); err != full {
		t.Error(err)
	}
	if err := guard.Within(time.Minute, func() error { breaks(); return nil }); err == nil {
		t.Error("a panic is no error")
	}
	hangs := make(chan struct{})
	defer close(hangs)
	if err := guard.Within(0, func() error { <-hangs; return nil }); err == nil {
		t.Error("hanging is no error")
	}
}

// A report holds what is needed, without the user's own folder; the same fault
// is written once, and old reports go.
func TestReports(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	folder := filepath.Join(home, "faults")
	r := guard.NewReports(folder)
	f := guard.Fault{Part: "The lamp", Doing: "reading " + home + "/bulb", Reason: "broken", Stack: []string{"lamp.on lamp/lamp.go:3"}}
	now := time.Date(2024, 5, 6, 7, 8, 9, 0, time.UTC)
	path, err := r.Write(f, []byte(`{"name": "A job"}`), now)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var got guard.Report
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if got.Part != string(f.Part) || got.Reason != f.Reason || got.Doing != "reading ~/bulb" || !got.When.Equal(now) || got.Version == "" || got.Go != runtime.Version() ||
		!strings.HasPrefix(got.System, runtime.GOOS) || len(got.Stack) != 1 || !strings.Contains(string(got.Job), "A job") {
		t.Errorf("the report is\n%s", data)
	}
	if strings.Contains(string(data), home) {
		t.Errorf("the report names the user's folder:\n%s", data)
	}
	if again, err := r.Write(f, nil, now.Add(time.Hour)); err != nil || again != path {
		t.Errorf("the same fault went to %s, %v", again, err)
	}
	for i := range guard.MostReports + 5 {
		f.Reason = strings.Repeat("x", i+1)
		if _, err := r.Write(f, nil, now.Add(time.Duration(i)*time.Second)); err != nil {
			t.Fatal(err)
		}
	}
	files, _ := filepath.Glob(filepath.Join(folder, "*"))
	if len(files) != guard.MostReports {
		t.Errorf("%d reports are kept", len(files))
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("the oldest report stays")
	}
}

// Without a place to write to, an error says so.
func TestReportsWithoutAPlace(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := guard.NewReports(filepath.Join(file, "faults")).Write(guard.Fault{Part: "The lamp"}, nil, time.Now()); err == nil {
		t.Error("a report was written into a file as if it were a folder")
	}
}
