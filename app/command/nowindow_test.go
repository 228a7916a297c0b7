//go:build nowindow

package command_test

import "testing"

// A build without a window says so, and checks and draws all the same.
func TestNoWindow(t *testing.T) {
	refused(t, "has no window")
	refused(t, "has no window", demos+"1-slab-side-wall.json")
	refused(t, "draws no pictures in space", "render", demos+"1-slab-side-wall.json")
	if code, _, errs := run("check", demos+"1-slab-side-wall.json"); code != 0 {
		t.Errorf("check: %d, %s", code, errs)
	}
	for _, drawing := range []string{"section", "plan", "waste", "bed", "boards"} {
		file := t.TempDir() + "/" + drawing + ".png"
		if code, _, errs := run("draw", demos+"1-slab-side-wall.json", "-drawing", drawing, "-o", file); code != 0 {
			t.Errorf("%s: %d, %s", drawing, code, errs)
		}
	}
}
