package guard

import (
	"errors"

	"underfall/geometry/parallel"
)

// Raise hands a fault of a worker, where the error is one, to the guard that its caller runs
// under.
func Raise(err error) {
	var fault *parallel.Fault
	if errors.As(err, &fault) {
		panic(fault.Error() + "\n" + fault.Stack)
	}
}
