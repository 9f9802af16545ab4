#!/usr/bin/env python3
"""How fast CIEDE2000 can change with a colour: largest change per unit CIELAB move over random pairs, by size of the
difference.

A few of the millions of pairs show values in the hundreds: those straddle the formula's own jump at opposite hues.

The second table is about colours whose hue is within a right angle of the reference's and that move beyond its
opposite: the change of the difference, jump included, as a share of the bound of 3 (3 (distance / 15)^2 beyond 15)
times the move. It stays below 0.74 up to a chroma of 10. Beyond, about one pair in three million exceeds it, at
differences of 15 and more, far from any limit that matters. """
import numpy as np
def de2000(L1,a1,b1,L2,a2,b2):
    C1=np.hypot(a1,b1);C2=np.hypot(a2,b2);Cm=(C1+C2)/2
    G=0.5*(1-np.sqrt(Cm**7/(Cm**7+25.0**7)));A1=(1+G)*a1;A2=(1+G)*a2
    c1=np.hypot(A1,b1);c2=np.hypot(A2,b2);h1=np.degrees(np.arctan2(b1,A1))%360;h2=np.degrees(np.arctan2(b2,A2))%360
    dh=h2-h1;dh=np.where(dh>180,dh-360,np.where(dh<-180,dh+360,dh));dh=np.where(c1*c2==0,0,dh)
    dH=2*np.sqrt(c1*c2)*np.sin(np.radians(dh/2))
    hs=h1+h2;hm=np.where(np.abs(h1-h2)<=180,hs/2,np.where(hs<360,(hs+360)/2,(hs-360)/2));hm=np.where(c1*c2==0,hs,hm)
    T=(1-.17*np.cos(np.radians(hm-30))+.24*np.cos(np.radians(2*hm))+.32*np.cos(np.radians(3*hm+6))
       -.2*np.cos(np.radians(4*hm-63)))
    Lm=(L1+L2)/2;cm=(c1+c2)/2
    SL=1+.015*(Lm-50)**2/np.sqrt(20+(Lm-50)**2);SC=1+.045*cm;SH=1+.015*cm*T
    RT=-np.sin(np.radians(60*np.exp(-((hm-275)/25)**2)))*2*np.sqrt(cm**7/(cm**7+25.0**7))
    l=(L2-L1)/SL;c=(c2-c1)/SC;h=dH/SH
    return np.sqrt(np.maximum(0,l*l+c*c+h*h+RT*c*h))
rng=np.random.default_rng(1)
best=[]
for rad in (1,3,6,15,30,60):
  for amax in (5,20,50,100):
    n=2_000_000
    L=rng.uniform(0,100,n);a=rng.uniform(-amax,amax,n);b=rng.uniform(-amax,amax,n)
    d=rng.normal(size=(3,n));d*=rad*rng.random(n)/np.linalg.norm(d,axis=0)
    e=rng.normal(size=(3,n));e*=1e-4/np.linalg.norm(e,axis=0)
    x=de2000(L,a,b,L+d[0],a+d[1],b+d[2]);y=de2000(L,a,b,L+d[0]+e[0],a+d[1]+e[1],b+d[2]+e[2])
    z=de2000(L+e[0],a+e[1],b+e[2],L+d[0],a+d[1],b+d[2])
    r=np.maximum(np.abs(y-x),np.abs(z-x))/1e-4
    print(rad,amax,np.quantile(r,[.5,.99,.9999]).round(3),np.sort(r)[-5:].round(2))

print()
for cmax in (0.5,3,10,30,60):
  for span in (1,5,30):
    n=1_000_000
    L=rng.uniform(0,100,n);C=rng.uniform(0,cmax,n);h=rng.uniform(0,2*np.pi,n);a=C*np.cos(h);b=C*np.sin(h)
    Cx=rng.uniform(0,cmax,n);eps=rng.choice([-1,1],n)*10**rng.uniform(-9,-3,n)
    xa=-Cx*np.cos(h+eps);xb=-Cx*np.sin(h+eps);xL=L+rng.normal(size=n)*span*rng.random(n)
    t=rng.uniform(-np.pi/2,np.pi/2,n);Cc=rng.uniform(0,cmax,n)*rng.random(n);ca=Cc*np.cos(h+t);cb=Cc*np.sin(h+t)
    cL=xL+rng.normal(size=n)*span*rng.random(n)*0.3
    change=np.abs(de2000(L,a,b,cL,ca,cb)-de2000(L,a,b,xL,xa,xb))
    move=np.sqrt((cL-xL)**2+(ca-xa)**2+(cb-xb)**2);apart=np.sqrt((L-cL)**2+(a-ca)**2+(b-cb)**2)
    bound=3*np.maximum(1,(apart+move)/15)**2*np.maximum(move,1e-12)
    print(cmax,span,(change/bound).max().round(3))
