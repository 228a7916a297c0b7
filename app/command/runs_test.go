package command_test

import (
	"strings"
	"testing"
)

// check -runs lists the runs to the exit as stated, then what costs little, then the ways out that have no run: one whose ground
// lies above the room is told with the base that it would take. Nothing goes with it that is for another answer.
func TestRunsAreListed(t *testing.T) {
	code, out, errs := run("check", "-runs", demos+"10-cellar-pump.json")
	if code != 0 || errs != "" {
		t.Fatalf("%d, %s", code, errs)
	}
	at := 0
	for _, want := range []string{"To the exit as stated", "Into a pump", "Ways out with no run", "Out through wall B", "no run. ", "the ground outside"} {
		i := strings.Index(out[at:], want)
		if i < 0 {
			t.Fatalf("%q is not said, or not in its place:\n%s", want, out)
		}
		at += i
	}
	refused(t, "check JOB -runs", "check", "-runs", "-with", "linear-nut", demos+"10-cellar-pump.json")
	refused(t, "check JOB -runs", "check", "-runs", "-json", demos+"10-cellar-pump.json")
}
