package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
)

// On a disk that is full half-way through the sheets the ones that are written stay, the one that there is no room for keeps its old file
// whole, no half file is left, and a sentence names the file and says that the disk is full.
func TestADiskFullHalfWay(t *testing.T) {
	const kilobytes = 1024
	r, b := demotest.Shown(t)[0], book(t)
	q := sheet.Asked{Paper: sheet.Papers()[0], Made: made()}
	kinds := []sheet.Kind{sheet.Order, sheet.Fitter, sheet.Cutting}
	var sizes []int
	for _, q.Kind = range kinds {
		var data bytes.Buffer
		if err := sheet.Write(&data, r, r.Answer(nil), q, b); err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, data.Len())
	}
	folder := t.TempDir()
	// Room for the order, the old fitter's sheet and half of a new one.
	old := bytes.Repeat([]byte("old "), 1000)
	room := sizes[0] + len(old) + sizes[1]/2
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, fmt.Sprintf("size=%dk", room/kilobytes)); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(folder, 0) })
	path := filepath.Join(folder, "bath")
	fitter := sheet.Fitter.File(path)
	if err := os.WriteFile(fitter, old, 0o600); err != nil {
		t.Fatal(err)
	}
	files, err := sheet.Save(path, kinds, r, r.Answer(nil), q, b)
	if err == nil || len(files) != 1 || files[0] != sheet.Order.File(path) {
		t.Fatalf("written: %v, %v", files, err)
	}
	if says := b.Say(message.OfError(err)); !strings.Contains(says, filepath.Base(fitter)) || !strings.Contains(says, "the disk is full") {
		t.Errorf("it is told: %q", says)
	}
	if data, err := os.ReadFile(fitter); err != nil || !bytes.Equal(data, old) {
		t.Errorf("the old file: %d bytes, %v", len(data), err)
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 2 {
		t.Errorf("left: %v, %v", left, err)
	}
	if data, err := os.ReadFile(files[0]); err != nil || len(data) != sizes[0] {
		t.Errorf("the order: %d of %d bytes, %v", len(data), sizes[0], err)
	}
}
