package app

import "testing"

// At the least usual size of a window the question of sizes stands before the cards and goes with them as they are scrolled, so that
// the cards have all the room there is under the answer.
func TestTheQuestionOfSizesLeavesTheCardsRoom(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	for _, key := range []string{askedKey, largeKey} {
		w.prefers.SetBool(key, false)
	}
	w.begin(w.demos[1].Job)
	settle(t)
	if !w.askLarge.Visible() {
		t.Fatal("it is not asked")
	}
	asked := w.told.Size().Height
	w.askLarge.Press(w.askLarge.Offers()[1])
	if w.askLarge.Visible() || w.told.Size().Height != asked {
		t.Errorf("asked, what stands under the cards is %v high, answered %v", asked, w.told.Size().Height)
	}
}
