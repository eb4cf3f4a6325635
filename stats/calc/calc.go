// Package calc holds small functions on plain numbers that gonum lacks: quantiles of mixtures, exact tests,
// odds. It knows nothing of cars. Arguments out of a function's domain give NaN, never a guess.
package calc
