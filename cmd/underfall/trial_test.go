package main_test

import (
	"bytes"
	"os"
	"testing"
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
	d.wait(`answer stops, \d+ in 100, counted true`)
	d.key("ctrl+s")
	d.wait(`saved .*clash\.json`)
	saved, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	d.pause()
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
	d.forget()
	d.key("ctrl+s")
	d.wait(`saved .*clash\.json`)
	if again, err := os.ReadFile(path); err != nil || !bytes.Equal(again, saved) {
		t.Errorf("put back, another job is saved: %v", err)
	}
	d.pause()
	cut()
	d.key("Return")
	d.wait(`job .* unsaved true undo true`)
	d.pause()
	d.forget()
	d.key("ctrl+z")
	d.wait(`job .* unsaved false undo false`)
	d.stop()
}
