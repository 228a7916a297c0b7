package answer_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// BenchmarkShow is what the column costs each time that a number is typed: another depth of the shower
// by turns, as it is shown in the usual window.
func BenchmarkShow(b *testing.B) {
	j := demotest.Rooms(b)[0].Job
	depth, _ := job.Find("shower.depthMM")
	packs := demotest.Packs(b)
	results := [2]geometry.Result{geometry.Evaluate(j, packs[j.Region]), geometry.Evaluate(depth.With(j, 1000), packs[j.Region])}
	c := answer.NewColumn(roomtest.British(b), control.NewKeys(), answer.Asks{ShowFinding: func(rule.Finding) {}, ShowFigure: func(geometry.Figure) {},
		ToField: func(string) {}, Do: func(edit.Edit) {}, List: func(message.ID) {}, Shown: func(geometry.Result, geometry.Answer) {},
		Lists: []message.ID{answer.HeightsList}})
	w := test.NewTempWindow(b, c.Object(nil, container.NewVBox()))
	w.Resize(fyne.NewSize(340, 640))
	i := 0
	for b.Loop() {
		i++
		c.Show(results[i%2])
	}
}
