package edit_test

import (
	"fmt"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// A point drain takes the place of a linear one: its size comes along, and the
// job it was made from stays as it was.
func ExampleEdit_Apply() {
	before := job.New()
	change := edit.Fall(job.FallPoint)
	after := change.Apply(before)
	fmt.Println(change.What)
	fmt.Println(before.Former.Fall, before.Drain.WidthMM)
	fmt.Println(after.Former.Fall, after.Drain.WidthMM)
	// Output:
	// edit.fall
	// back 70
	// point 120
}
