//go:build linux

package main_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
)

// At rest the window draws nothing: a window that is drawn all the time, even twenty times a second
// as for a cursor that blinks, takes an eighth of a core and more where there is no graphics card.
func TestIdleDrawsNothing(t *testing.T) {
	d := openDesktop(t)
	for _, demo := range []string{"1-slab-side-wall", "10-cellar-pump"} {
		d.start("../../assets/demos/" + demo + ".json")
		d.wait("answer .* counted true")
		const most, long = 0.06, 5 * time.Second // of a core; the toolkit asks for events sixty times a second
		least := 1.0
		for range 12 { // what refines the picture goes on for a while, and another program's turn may fall into one
			began := d.busy()
			time.Sleep(long)
			if least = min(least, (d.busy()-began).Seconds()/long.Seconds()); least <= most {
				break
			}
		}
		t.Logf("%s: %.1f %% of a core", demo, 100*least)
		if least > most {
			t.Errorf("%s: at rest it takes %.1f %% of a core", demo, 100*least)
		}
		d.stop()
		d.forget()
	}
}

// busy is how long the program has had a processor.
func (d *desktop) busy() time.Duration {
	d.t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", d.program.Process.Pid))
	if err != nil {
		d.t.Fatal(err)
	}
	// Behind the name in brackets: proc(5), utime and stime are fields 14 and 15, in hundredths of a second.
	fields := strings.Fields(string(data[strings.LastIndexByte(string(data), ')')+1:]))
	var user, system int
	if _, err := fmt.Sscan(fields[11]+" "+fields[12], &user, &system); err != nil {
		d.t.Fatal(err)
	}
	return time.Duration(user+system) * 10 * time.Millisecond
}
