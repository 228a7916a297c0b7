package main_test

import (
	"os"
	"os/exec"
	"testing"
)

// The notices shipped are those of the modules and fonts that are linked, in
// the versions that are linked.
func TestNotices(t *testing.T) {
	readsSources(t)
	// Versions are chosen in these two.
	for _, file := range []string{"../../go.mod", "../../go.sum"} {
		if _, err := os.ReadFile(file); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := exec.Command("go", "run", "underfall/cmd/notices", "-check").CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
