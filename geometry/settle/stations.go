package settle

import (
	"slices"

	"underfall/geometry/job"
)

// Stations are the stations of the work at which one job states something else than another, in the order of
// the work; none of two that state the same.
func Stations(a, b *job.Job) (out []job.Station) {
	apart := map[job.Station]bool{}
	for _, key := range differing(a, b) {
		if at, ok := job.StationOf(key); ok {
			apart[at] = true
		}
	}
	return slices.DeleteFunc(job.Stations(), func(s job.Station) bool { return !apart[s] })
}
