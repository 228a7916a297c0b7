package main_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"underfall/geometry/job"
)

// A display that is taken away ends the program at once, in the middle of whatever it does; the
// change made a moment before is kept all the same, and the start page offers it the next time.
func TestDisplayTakenAway(t *testing.T) {
	d := openDesktop(t)
	path, demo := d.jobNamed("away.json")
	d.start(path)
	d.wait(`base top 79\.00 tile 115\.00 stops 0`)
	d.typeFall()
	d.key("Return")
	d.wait(`base top 95\.00 .* unsaved true undo true`)
	const atOnce = 250 * time.Millisecond // less than between two steps of what one does
	time.Sleep(atOnce)
	if err := d.server.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = d.server.Wait()
	ended := make(chan error, 1)
	go func() { ended <- d.program.Wait() }()
	select {
	case <-ended:
	case <-time.After(20 * time.Second):
		t.Fatal("without its display the program goes on")
	}
	kept, err := filepath.Glob(filepath.Join(d.config(), "kept", "*"))
	if err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != string(demo) {
		t.Errorf("the file itself was written: %v", err)
	}
	d.turnOn()
	d.forget()
	d.run()
	name := d.wait(`unsaved work found: "(.+)"`)
	j, err := job.Parse(demo)
	if err != nil {
		t.Fatal(err)
	}
	if name[1] != j.Name {
		t.Errorf("%q is offered; kept are %q", name[1], kept)
	}
	d.stop()
}
