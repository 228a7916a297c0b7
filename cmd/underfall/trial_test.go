package main_test

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"underfall/geometry/job"
)

// A joist that the trap is in is cut out by one press of the button on its card, which tries that, and one key, which
// keeps it: two in all, one step to undo. Put back by Escape in the place of kept, the job that is saved then is byte
// for byte the one that was saved before.
func TestAClashClearedInOneStepAndKeptInOneMore(t *testing.T) {
	d := openDesktop(t)
	path, _ := d.jobNamed("clash.json")
	data, err := os.ReadFile("../../testdata/faults/pipe-across-joists.json")
	if err == nil {
		err = os.WriteFile(path, data, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	d.start(path)
	d.wait(`offers for`)
	saved := d.saved(path)
	cut := func() {
		d.forget()
		d.click(1015, 424)
		d.wait(`trial on`)
		d.pause()
	}
	cut()
	d.key("Escape")
	d.wait(`trial off`)
	d.pause()
	if !bytes.Equal(d.saved(path), saved) {
		t.Error("put back, another job is saved")
	}
	d.steps = 0
	cut()
	d.took("clearing the clash", 1)
	d.key("Return")
	d.wait(`job .* unsaved true undo true`)
	d.took("clearing the clash and keeping that", 2)
	d.pause()
	d.forget()
	d.key("ctrl+z")
	d.wait(`job .* unsaved false undo false`)
	d.stop()
}

// A run is found, tried and put back: the job that is saved then is byte for byte the one that was saved before.
func TestARunFoundTriedAndPutBack(t *testing.T) {
	d := openDesktop(t)
	path, _ := d.jobNamed("run.json")
	d.start(path)
	d.wait(`answer .*, \d+ in 100, counted true`)
	saved := d.saved(path)
	d.click(1005, 700) // the list of runs
	d.pause()
	d.click(184, 118) // looks for them
	for range 60 {    // until there is one to try
		if strings.Contains(d.log(), "trial on") {
			break
		}
		d.click(312, 229)
		time.Sleep(time.Second)
	}
	d.wait(`trial on`)
	d.pause()
	d.key("Escape")
	d.wait(`trial off`)
	d.pause()
	if !bytes.Equal(d.saved(path), saved) {
		t.Error("put back, another job is saved")
	}
	d.stop()
}

// The step at the doorway is seen in the section by one press.
func TestTheStepAtTheDoorInOnePress(t *testing.T) {
	d := openDesktop(t)
	path, _ := d.jobNamed("door.json")
	d.start(path)
	d.wait(`base top 79\.00`)
	d.pause()
	d.forget()
	d.steps = 0
	d.click(314, 440)
	d.wait(`cut true (door|step) 0\.0`)
	d.took("the step at the door", 1)
	d.stop()
}

// A wall is moved by its figure on the tape along it: pressed, typed and entered. The room is 2400 wide and 1900 deep; with
// wall A as long as 2600 its corner with D has gone along it.
func TestAWallMovedByItsRunningDimension(t *testing.T) {
	d := openDesktop(t)
	path, _ := d.jobNamed("wall.json")
	d.start(path)
	d.wait(`base top 79\.00`)
	d.click(90, 770) // the room, with its tapes
	d.pause()
	d.steps = 0
	d.click(820, 584)
	d.typed("2600")
	d.key("Return")
	d.wait(`unsaved true undo true`)
	d.took("moving a wall", 3)
	d.pause()
	j, err := job.Parse(d.saved(path))
	if err != nil {
		t.Fatal(err)
	}
	at := j.Room.Doorways[0].Wall
	if long := j.Room.Outline[at].Sub(j.Room.Outline[(at+1)%len(j.Room.Outline)]).Len(); math.Abs(long-2600) > 1 {
		t.Errorf("wall A is %.0f long", long)
	}
	d.stop()
}
