package app

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"underfall/assets"
)

// BenchmarkTyped is what the last digit of a depth costs that is typed into its field, at 1280 × 800: until the answer beside
// the views says what it comes to, and until the plan is drawn of it, in milliseconds. The toolkit's painting of the window is
// left out.
func BenchmarkTyped(b *testing.B) {
	w, _ := openWindow(b, Options{})
	demos, err := assets.Demos()
	if err != nil {
		b.Fatal(err)
	}
	first := demos[0].Job
	if err := w.desk.Replace(first); err != nil {
		b.Fatal(err)
	}
	plans := 0
	w.plan.Drawn = func() { plans++ }
	w.toField("shower.depthMM")
	atRest := func() bool {
		return w.change.Result.Stated.Name == first.Name && w.plan.AtRest() && w.section.AtRest() && !w.pace.due
	}
	until(b, "the job", func() bool { return atRest() && plans > 0 })
	field := w.window.Canvas().Focused()
	var numbers, drawn time.Duration
	n := 0
	for b.Loop() {
		b.StopTimer()
		n++
		begun := []rune{'8', '9'}[n%2] // and a 5: 850 and 950, where 900 is the job's
		field.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		field.TypedRune(begun)
		field.TypedRune('5')
		until(b, "what was begun", atRest)
		w.pace.at = time.Time{} // longer than one types
		before, edits := plans, w.change.Result.Settled.Shower.DepthMM
		b.StartTimer()
		began := time.Now()
		field.TypedRune('0')
		for w.change.Result.Settled.Shower.DepthMM == edits {
			(<-tests[b])()
		}
		numbers += time.Since(began)
		for plans == before || !w.plan.AtRest() {
			(<-tests[b])()
		}
		drawn += time.Since(began)
	}
	b.ReportMetric(float64(numbers.Microseconds())/1000/float64(n), "ms-numbers")
	b.ReportMetric(float64(drawn.Microseconds())/1000/float64(n), "ms-plan")
}
