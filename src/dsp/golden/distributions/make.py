import json, numpy as np, scipy, scipy.stats as st
o={}
o["studentTail"]=[[t,v,float(st.t.sf(t,v))] for v in (0.7,1,2.5,4,7.3,16,40,300,1e6) for t in (-30,-3,-0.4,0,0.2,1,2.3,5,12,30)]
o["studentQuantile"]=[[p,v,float(st.t.isf(p,v))] for v in (1,2.5,4,7.3,16,40,300) for p in (0.9,0.5,0.2,0.05,0.025,0.01,0.001,1e-6)]
o["normalTail"]=[[z,float(st.norm.sf(z))] for z in (-8,-2.5,-1,0,0.1,0.7,1.5,2.326,2.999,3,3.001,4,6,10,20,30)]
json.dump(o,open("expected.json","w"),indent=0)
