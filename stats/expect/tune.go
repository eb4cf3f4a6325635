package expect

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// TuneFrom turns readings, named as in work.csv, into a state of tune: cam_phase_deg, ignition_deg, lambda,
// lambda_cruise, lambda_idle, co_pct and compression_bar. Names that say nothing of the tune are passed over. healthyBar
// is what each cylinder showed when sound, Unknown = judge by the best of them: a fault that all share stays unseen then.
func TuneFrom(readings map[string][]float64, healthyBar float64, distributorReset bool) engine.Tune {
	one := func(name string) float64 {
		if v := readings[name]; len(v) > 0 {
			return v[0]
		}
		return quantity.Unknown
	}
	return engine.Tune{
		CamPhaseDeg:      one("cam_phase_deg"),
		IgnitionDeg:      one("ignition_deg"),
		Lambda:           quantity.Or(one("lambda_cruise"), one("lambda")),
		LambdaIdle:       quantity.Or(one("lambda_idle"), engine.LambdaFromCO(one("co_pct"))),
		CompressionLoss:  notable(engine.LossFromBar(readings["compression_bar"], healthyBar), quantity.Known(healthyBar)),
		Dead:             engine.DeadFromBar(readings["compression_bar"]),
		DistributorReset: distributorReset,
	}
}

// notable takes off what sound cylinders differ by anyhow, and more where only the best of them is the measure (common
// practice: a tenth between best and worst is in order).
func notable(loss float64, baseline bool) float64 {
	if baseline {
		return math.Max(0, loss-0.02)
	}
	return math.Max(0, loss-0.05)
}

// CrankingShare is what a gauge in the plug hole should show with the cam at one phase, crank degrees off its card, for each bar
// that it shows with the cam at another. It is 1 where the cycle model can't tell.
func CrankingShare(e book.Engine, from, to float64) float64 {
	if math.Abs(to-from) < 0.5 {
		return 1
	}
	was, err := usualEngine(e).CrankingBar(from)
	now, err2 := usualEngine(e).CrankingBar(to)
	if err != nil || err2 != nil {
		return 1
	}
	return now / was
}
