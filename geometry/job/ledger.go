package job

// usualLedgerMM is the section of the ledgers that carry boards let in between joists.
// Common practice, no source.
const usualLedgerMM = 38

// Ledger is the section of the ledgers on the joists' flanks, as stated or the usual one.
func (b *Base) Ledger() (widthMM, depthMM float64) {
	widthMM, depthMM = b.LedgerWidthMM, b.LedgerDepthMM
	if widthMM <= 0 {
		widthMM = usualLedgerMM
	}
	if depthMM <= 0 {
		depthMM = usualLedgerMM
	}
	return widthMM, depthMM
}
