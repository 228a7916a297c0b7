package job_test

import (
	"fmt"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// A job goes into a file and comes back as it was.
func ExampleParse() {
	j := job.New()
	j.Name = "Loft, gable end"
	file, err := j.Marshal()
	if err != nil {
		fmt.Println(err)
		return
	}
	back, err := job.Parse(file)
	fmt.Println(back.Name, back.Shower.WidthMM, err)
	// Output: Loft, gable end 1400 <nil>
}

// What is wrong with a file, and where? The room's wall is 2400 long: a doorway
// of 760 can begin at 1640 at the most.
func ExampleParse_refused() {
	j := job.New()
	j.Room.Doorways[0].OffsetMM = 1700
	file, err := j.Marshal()
	if err != nil {
		fmt.Println(err)
		return
	}
	_, err = job.Parse(file)
	fmt.Println(message.OfError(err))
	// Output: problem{place: place.doorway{n: 1}, what: problem.doorway-past-wall{length: 2400 mm}}
}
