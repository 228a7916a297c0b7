// Command words holds what Underfall says against its catalogues: ids without a
// text or with two, texts that nothing says, and texts that ask for a value they do
// not get.
package main

import (
	"fmt"
	"os"
	"slices"

	"underfall/app/words"
	"underfall/assets"
)

func main() {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		fail(err)
	}
	said, err := saidIn("./...")
	if err != nil {
		fail(err)
	}
	faults := slices.Concat(compare(said, shelf), shelf.Broken, repeated(assets.Words()))
	for _, f := range faults {
		fmt.Println(f)
	}
	british, american := len(shelf.IDs(words.British)), len(shelf.IDs(words.American))
	fmt.Printf("%d ids, %d texts in British English, %d of their own in American\n", len(said), british, american)
	if len(faults) > 0 {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}
