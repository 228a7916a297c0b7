package app

import (
	"runtime"
	"testing"
	"time"

	"underfall/geometry/job"
)

// BenchmarkStations is what it costs to open each station of the work for the first time, until its fields are laid out and
// painted. It reports milliseconds and the memory taken meanwhile for each.
func BenchmarkStations(b *testing.B) {
	var took time.Duration
	var taken uint64
	for b.Loop() {
		b.StopTimer()
		w, _ := openWindow(b, Options{})
		w.sides.close()
		until(b, "a result", func() bool { return w.change.Result.Settled.Name != "" && w.plan.AtRest() })
		w.window.Canvas().Capture()
		b.StartTimer()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		for i := range job.Stations() {
			w.openStation(i)
			w.window.Canvas().Capture()
		}
		took += time.Since(start)
		runtime.ReadMemStats(&after)
		taken += after.TotalAlloc - before.TotalAlloc
	}
	n := float64(b.N * len(job.Stations()))
	b.ReportMetric(took.Seconds()*1000/n, "ms/station")
	b.ReportMetric(float64(taken)/n/1e6, "MB/station")
}
