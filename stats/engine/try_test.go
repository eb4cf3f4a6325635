package engine
import ("testing";"math/rand";"math";"fmt";"time")
func TestTry(t *testing.T){
 r:=rand.New(rand.NewSource(1)); worst:=Balance{}; var slow time.Duration
 for n:=0;n<200;n++{ u:=func(a,b float64)float64{ if r.Intn(3)==0 { if r.Intn(2)==0 {return a}; return b}; return a+(b-a)*r.Float64()}
  e:=Engine{DisplacementCC:0,Cylinders:float64(1+r.Intn(12)),CompressionRatio:u(4,14),IdleRPM:u(300,1800),Injection:r.Intn(2)==0,Card:Card{u(-20,60),u(10,100),u(10,100),u(-20,60),40}}
  e.DisplacementCC=e.Cylinders*u(40,1000)
  tn:=Tune{u(-50,50),u(-50,50),u(.6,1.5),u(.6,1.5),u(0,.6),false}
  if e.Check()!=nil {continue}
  t0:=time.Now()
  func(){ defer func(){ if x:=recover();x!=nil { fmt.Printf("PANIC %v %+v %+v\n",x,e,tn)}}()
  c,err:=Compare(e,tn); if err!=nil {fmt.Println(err);return}
  for _,f:=range c.Fuel { if math.IsNaN(f)||f<.5||f>3 {fmt.Printf("BAD %.3f %.2f %.2f %+v %+v %+v\n",c.Fuel,c.Torque,c.HealthyTorque,c.Worst,e,tn);break}}
  if c.Worst.MassPct>.3||c.Worst.EnergyPct>.3 {fmt.Printf("bal %+v %+v %+v %.2f %.2f %.2f\n",c.Worst,e,tn,c.Torque,c.HealthyTorque,c.Fuel)}
  worst.MassPct=max(worst.MassPct,c.Worst.MassPct);worst.EnergyPct=max(worst.EnergyPct,c.Worst.EnergyPct)}()
  slow=max(slow,time.Since(t0))
 }
 fmt.Println(worst,slow)
}
