// Command underfall plans a raised, falling shower floor: it opens the window,
// or works without one on a job file.
package main

import (
	"os"

	"underfall/app/command"
)

func main() { os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr)) }
