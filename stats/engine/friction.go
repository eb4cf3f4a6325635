package engine

// friction is the mean effective pressure that the engine's own rubbing and drives take, bar: the form of Barnes-Moss
// given by Heywood (section 13.5, from memory), times 0.85 because pumping, which it includes, is reckoned here.
func friction(rpm float64) float64 {
	n := rpm / 1000
	return 0.85 * (0.97 + 0.15*n + 0.05*n*n)
}
