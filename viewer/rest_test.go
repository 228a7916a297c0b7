package viewer

import "testing"

// Drivers without a card draw blocks of four by four pixels whole: no step of a picture at rest ends inside of one, or the
// next would draw it again, and none is much longer than it may be.
func TestStepsEndWithBlocks(t *testing.T) {
	for device, atOnce := range map[string]int{"llvmpipe (LLVM 15.0.6, 256 bits)": 1 << 12, "a card": 1 << 20} {
		r := &Renderer{Device: device}
		for _, width := range []int{320, 640, 1280, 1920, 2560, 3840} {
			rows := r.rowsAtOnce(width)
			if rows < 4 || rows%4 != 0 || rows > 4 && rows*width > atOnce {
				t.Errorf("%s: %d rows at once of pictures %d wide", device, rows, width)
			}
		}
	}
}
