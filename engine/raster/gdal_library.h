// GDAL, opened when a raster is first read or written.
//
// Linked the ordinary way it brings some hundred libraries with it, whose symbols took four fifths
// of every start, and most commands touch no raster. So its C functions, which unlike its classes
// stay what they are from release to release, are called through this table. Names are GDAL's.
#pragma once

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_vsi.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <memory>

namespace hummock {

// A function found in the opened library; becomes whatever pointer it is kept in.
class GdalSymbol {
 public:
  explicit GdalSymbol(const char* name);  // throws ResourceError: not there
  template <class Function>
  operator Function*() const {
    return reinterpret_cast<Function*>(at_);
  }

 private:
  void* at_;
};

struct Gdal {
// NOLINTNEXTLINE(bugprone-macro-parentheses): the name is what is declared
#define HUMMOCK_FROM_GDAL(name) decltype(&::name) name = GdalSymbol(#name)
  HUMMOCK_FROM_GDAL(CPLErrorReset);
  HUMMOCK_FROM_GDAL(CPLGetLastErrorMsg);
  HUMMOCK_FROM_GDAL(CPLGetLastErrorNo);
  HUMMOCK_FROM_GDAL(CPLGetLastErrorType);
  HUMMOCK_FROM_GDAL(CPLPopErrorHandler);
  HUMMOCK_FROM_GDAL(CPLPushErrorHandler);
  HUMMOCK_FROM_GDAL(CPLQuietErrorHandler);
  HUMMOCK_FROM_GDAL(CPLSetThreadLocalConfigOption);
  HUMMOCK_FROM_GDAL(GDALAllRegister);
  HUMMOCK_FROM_GDAL(GDALClose);
  HUMMOCK_FROM_GDAL(GDALCreate);
  HUMMOCK_FROM_GDAL(GDALCreateCopy);
  HUMMOCK_FROM_GDAL(GDALFlushCache);
  HUMMOCK_FROM_GDAL(GDALFlushRasterCache);
  HUMMOCK_FROM_GDAL(GDALGetBlockSize);
  HUMMOCK_FROM_GDAL(GDALGetDatasetDriver);
  HUMMOCK_FROM_GDAL(GDALGetDriverByName);
  HUMMOCK_FROM_GDAL(GDALGetDriverShortName);
  HUMMOCK_FROM_GDAL(GDALGetGeoTransform);
  HUMMOCK_FROM_GDAL(GDALGetMaskBand);
  HUMMOCK_FROM_GDAL(GDALGetMaskFlags);
  HUMMOCK_FROM_GDAL(GDALGetRasterBand);
  HUMMOCK_FROM_GDAL(GDALGetRasterCount);
  HUMMOCK_FROM_GDAL(GDALGetRasterOffset);
  HUMMOCK_FROM_GDAL(GDALGetRasterScale);
  HUMMOCK_FROM_GDAL(GDALGetRasterUnitType);
  HUMMOCK_FROM_GDAL(GDALGetRasterXSize);
  HUMMOCK_FROM_GDAL(GDALGetRasterYSize);
  HUMMOCK_FROM_GDAL(GDALGetSpatialRef);
  HUMMOCK_FROM_GDAL(GDALInvGeoTransform);
  HUMMOCK_FROM_GDAL(GDALOpenEx);
  HUMMOCK_FROM_GDAL(GDALRasterIO);
  HUMMOCK_FROM_GDAL(GDALSetDescription);
  HUMMOCK_FROM_GDAL(GDALSetGeoTransform);
  HUMMOCK_FROM_GDAL(GDALSetRasterNoDataValue);
  HUMMOCK_FROM_GDAL(GDALSetRasterUnitType);
  HUMMOCK_FROM_GDAL(OCTDestroyCoordinateTransformation);
  HUMMOCK_FROM_GDAL(OCTNewCoordinateTransformation);
  HUMMOCK_FROM_GDAL(OCTTransform);
  HUMMOCK_FROM_GDAL(OSRClone);
  HUMMOCK_FROM_GDAL(OSRCloneGeogCS);
  HUMMOCK_FROM_GDAL(OSRDestroySpatialReference);
  HUMMOCK_FROM_GDAL(OSRGetInvFlattening);
  HUMMOCK_FROM_GDAL(OSRGetLinearUnits);
  HUMMOCK_FROM_GDAL(OSRGetName);
  HUMMOCK_FROM_GDAL(OSRGetSemiMajor);
  HUMMOCK_FROM_GDAL(OSRIsGeographic);
  HUMMOCK_FROM_GDAL(OSRIsProjected);
  HUMMOCK_FROM_GDAL(OSRNewSpatialReference);
  HUMMOCK_FROM_GDAL(OSRSetAxisMappingStrategy);
  HUMMOCK_FROM_GDAL(OSRSetPROJEnableNetwork);
  HUMMOCK_FROM_GDAL(OSRSetWellKnownGeogCS);
  HUMMOCK_FROM_GDAL(VSIFCloseL);
  HUMMOCK_FROM_GDAL(VSIFileFromMemBuffer);
  HUMMOCK_FROM_GDAL(VSIUnlink);
#undef HUMMOCK_FROM_GDAL
};

// The one table; any thread. Drivers are registered, and PROJ asks no network. Throws ResourceError
// when the library or a function of it is not there.
const Gdal& gdal();

struct CloseDataset {
  using pointer = GDALDatasetH;
  void operator()(GDALDatasetH set) const { gdal().GDALClose(set); }
};
using GdalDataset = std::unique_ptr<void, CloseDataset>;

// While it lives, GDAL's errors are ours to tell, not its to print.
class QuietGdal {
 public:
  QuietGdal() { gdal().CPLPushErrorHandler(gdal().CPLQuietErrorHandler); }
  ~QuietGdal() { gdal().CPLPopErrorHandler(); }
  QuietGdal(const QuietGdal&) = delete;
  QuietGdal& operator=(const QuietGdal&) = delete;
};

}  // namespace hummock
