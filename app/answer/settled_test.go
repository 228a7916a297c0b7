package answer_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/roomtest"
	"underfall/assets"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/unknown"
)

// Where things stand in the column follows from what it shows and how large it is, not from what it showed
// before, when what is worked out beside it came, or how large it was.
func TestTheColumnStandsTheSameHoweverItCameToShowAJob(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	usual, wide := fyne.NewSize(340, 640), fyne.NewSize(420, 900)
	for _, i := range []int{0, 1, 5, 6} { // one that is sound, tight, that stops, in inches
		demo := demos[i]
		ways := map[string]func(show func(job.Job), size func(fyne.Size)){
			"at once":           func(func(job.Job), func(fyne.Size)) {},
			"after another job": func(show func(job.Job), _ func(fyne.Size)) { show(demos[(i+len(demos)/2)%len(demos)].Job) },
			"in another size":   func(show func(job.Job), size func(fyne.Size)) { size(wide); show(demo.Job) },
			"after one that stops, in another size": func(show func(job.Job), size func(fyne.Size)) {
				size(wide)
				show(demos[5].Job)
				size(usual)
			},
		}
		var want []string
		for _, way := range slices.Sorted(maps.Keys(ways)) {
			a := columnOf(t, demos[0].Job)
			window := test.NewTempWindow(t, a.Object(nil, container.NewVBox()))
			window.SetPadded(false)
			window.Resize(usual)
			frames := roomtest.NewFrames()
			paint := func() {
				if !frames.Settle(window.Content()) {
					t.Fatalf("%s, %s: laid out without end", demo.Job.Name, way)
				}
			}
			show := func(j job.Job) { a.all(t, j); paint() }
			size := func(s fyne.Size) { window.Resize(s); paint() }
			ways[way](show, size)
			show(demo.Job)
			size(usual)
			got := stands(window.Content())
			if want == nil {
				want = got
			}
			for k := range max(len(got), len(want)) {
				if k >= len(got) || k >= len(want) || got[k] != want[k] {
					t.Errorf("%s, %s: %v; %v", demo.Job.Name, way, got[min(k, len(got)-1)], want[min(k, len(want)-1)])
					break
				}
			}
		}
	}
}

// all shows a job, its chances, what it may come to and what can be done about it.
func (a *asked) all(t *testing.T, j job.Job) {
	t.Helper()
	a.job = j
	a.show(t)
	counted, err := chance.Count(context.Background(), a.Result().Levelled, a.Result().Findings, 500, chance.Seed)
	if err != nil {
		t.Fatal(err)
	}
	a.ShowRisks(counted)
	if x, err := unknown.Explore(context.Background(), a.Result()); err == nil {
		a.ShowPossible(&x)
	}
}

// stands tells where everything that shows stands.
func stands(o fyne.CanvasObject) (out []string) {
	roomtest.EachShown(o, func(o fyne.CanvasObject) {
		out = append(out, fmt.Sprintf("%T %v %v", o, o.Position(), o.Size()))
	})
	return out
}
