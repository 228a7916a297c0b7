package command_test

import (
	"os"
	"testing"

	"underfall/app/words"
)

// TestMain has the commands speak British, whatever the machine speaks.
func TestMain(m *testing.M) {
	if err := os.Setenv("UNDERFALL_LANGUAGE", words.British); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
